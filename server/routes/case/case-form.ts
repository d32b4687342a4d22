/** What every form of a case goes through: read, compare with what it was made for, store, go on. */
import type { Request, RequestHandler, Response } from 'express'
import type { CaseEvent } from '../../../shared/case.js'
import type { Question, Stop } from '../../../shared/knowledge.js'
import type { Deps } from '../../wiring/deps.js'
import { atHand } from '../../wiring/deps.js'
import { BadRequest, NotFound, StaleForm, UnknownToRulebook } from '../../errors.js'
import type { Sent } from '../../forms/answer-form.js'
import { seenIn, sentFrom } from '../../forms/sent.js'
import { conflictPage } from '../../pages/case/conflict-page.js'
import { lookupOf } from '../../../shared/rulebook-index.js'
import type { OnBench } from '../../bench/on-bench.js'
import { onBench } from '../../bench/on-bench.js'
import { record } from '../../bench/record.js'
import type { Shown } from '../../pages/render.js'
import { renderPage, showPage } from '../../pages/render.js'

/** What a form comes to: events to store, or the page again with what to put right. */
export type FormResult =
  | { readonly store: readonly CaseEvent[]; readonly to?: string }
  | { readonly putRight: Shown }

/** The case of a request, by the id in its address. @throws CaseNotFound */
export const caseOf = (deps: Deps, req: Request): Promise<OnBench> =>
  onBench(atHand(deps, req), String(req.params['id']))

/** A handler for a form of a case. `read` makes events of what was sent; a mistake shows the page again with 422. */
export function caseForm(
  deps: Deps,
  read: (on: OnBench, sent: Sent, req: Request) => FormResult | Promise<FormResult>,
): RequestHandler {
  return async (req, res) => {
    const hand = atHand(deps, req)
    const on = await onBench(hand, String(req.params['id']))
    const sent = sentFrom(req.body)
    if (seenIn(sent) !== on.bench.events.length) return stale(on, sent, req, res)
    const result = await read(on, sent, req)
    if ('putRight' in result) {
      res.status(422)
      return showPage(res, result.putRight)
    }
    const home = `/cases/${on.bench.id}`
    if (result.store.length === 0) return res.redirect(303, result.to ?? home)
    try {
      const after = await record(hand, on, result.store)
      const to = newlyOff(on, after) ?? (newlyEnded(on, after) ? home : result.to)
      res.redirect(303, to ?? home)
    } catch (error) {
      if (error instanceof StaleForm) return stale(await onBench(hand, on.bench.id), sent, req, res)
      if (error instanceof UnknownToRulebook) throw outOfBook(error.problems[0].path.join('.'))
      throw error
    }
  }
}

function stale(on: OnBench, sent: Sent, req: Request, res: Response): void {
  renderPage(res.status(409), 'case/conflict', conflictPage(on.knowledge, on.bench, req.path, sent))
}

/** A form of ours names what is in the rulebook when it is made; by the time it is sent that may be another one. */
export function outOfBook(field: string): BadRequest {
  return new BadRequest(
    'This form names something that the rulebook does not have. Perhaps it was changed since the page was opened: open the case again, it asks what it needs.',
    { field, status: 422 },
  )
}

/** The address of a stop that is on only now and does not end the work: what to do is shown once, in full. */
function newlyOff(before: OnBench, after: OnBench): string | null {
  const off = ({ assessment }: OnBench): readonly string[] =>
    assessment.stops.filter(({ grade }) => grade === 'off-the-client').map(({ id }) => id)
  const known = new Set(off(before))
  const fresh = off(after).find((id) => !known.has(id))
  return fresh === undefined ? null : `/cases/${after.bench.id}/stops/${fresh}`
}

/** Did what was said end the work? The case itself then says what to do with the thing in the hand, whatever page came next. */
function newlyEnded(before: OnBench, after: OnBench): boolean {
  const ended = ({ assessment }: OnBench): boolean =>
    assessment.stops.some(({ grade }) => grade === 'set-aside')
  return ended(after) && !ended(before)
}

/** The stop in the address. @throws NotFound */
export function stopOf({ knowledge }: OnBench, req: Request): Stop {
  const stop = lookupOf(knowledge).stops.get(String(req.params['stop']))
  if (!stop) throw new NotFound('a stop of this name')
  return stop
}

/** The question in the address. @throws NotFound */
export function questionOf({ knowledge }: OnBench, req: Request): Question {
  const asked = lookupOf(knowledge).questions.get(String(req.params['question']))
  if (!asked) throw new NotFound('a question of this name')
  return asked.question
}
