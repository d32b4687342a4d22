/** What every form of a case goes through: read, compare with what it was made for, store, go on. */
import type { Request, RequestHandler, Response } from 'express'
import type { CaseEvent } from '../../../shared/case.js'
import { bookOf } from '../../../shared/book-of-kind.js'
import { CaseEvent as CaseEventShape } from '../../../shared/case.js'
import type { Question, Stop } from '../../../shared/knowledge.js'
import { conflictAmong, eventProblems } from '../../cases/door.js'
import type { AtHand, Deps } from '../../wiring/deps.js'
import { atHand } from '../../wiring/deps.js'
import { BadRequest, CaseNotFound, NotFound, StaleForm } from '../../errors.js'
import type { Sent } from '../../forms/answer-form.js'
import { textOf } from '../../forms/answer-form.js'
import { conflictPage } from '../../pages/case/conflict-page.js'
import { lookupOf } from '../../../shared/rulebook-index.js'
import type { OnBench } from '../../bench/on-bench.js'
import { problemPage } from '../../pages/layout/problem-page.js'
import type { Shown } from '../../pages/render.js'
import { renderPage, showPage } from '../../pages/render.js'
import { reckoned } from '../../bench/reckoning.js'

/** What a form comes to: events to store, or the page again with what to put right. */
export type FormResult =
  { readonly store: readonly CaseEvent[]; readonly to?: string } | { readonly putRight: Shown }

/** The case of a request with all that its pages need. @throws CaseNotFound */
export async function onBench(hand: AtHand, id: string | string[] | undefined): Promise<OnBench> {
  const bench = await hand.cases.get(typeof id === 'string' ? id : '')
  if (!hand.knowledge.kinds.some((kind) => kind.id === bench.kind)) throw new CaseNotFound(bench.id)
  const knowledge = bookOf(hand.knowledge, bench.kind)
  const { situation, settings: shop, ...reckoning } = reckoned(bench, hand.knowledge, hand.shop.record)
  const assessment = await hand.assessments.of(situation, shop)
  return { knowledge, shop, ...reckoning, bench, situation, assessment }
}

/** A handler for a form of a case. `read` makes events of what was sent; a slip shows the page again with 422. */
export function caseForm(
  deps: Deps,
  read: (on: OnBench, sent: Sent, req: Request) => FormResult | Promise<FormResult>,
): RequestHandler {
  return async (req, res) => {
    const hand = atHand(deps, req)
    const on = await onBench(hand, req.params['id'])
    const sent = sentBy(req)
    if (seenOf(sent) !== on.bench.events.length) return stale(on, sent, req, res)
    const result = await read(on, sent, req)
    if ('putRight' in result) {
      res.status(422)
      return showPage(res, result.putRight)
    }
    const home = `/cases/${on.bench.id}`
    if (result.store.length === 0) return res.redirect(303, result.to ?? home)
    const conflict = refusal(on, result.store)
    if (conflict !== null) return renderPage(res.status(409), 'layout/problem', problemPage(409, conflict))
    try {
      await hand.cases.append(on.bench.id, result.store, hand.now().toISOString(), on.bench.events.length)
    } catch (error) {
      if (!(error instanceof StaleForm)) throw error
      return stale(await onBench(hand, on.bench.id), sent, req, res)
    }
    const after = await onBench(hand, on.bench.id)
    res.redirect(303, newlyOff(on, after) ?? result.to ?? home)
  }
}

function stale(on: OnBench, sent: Sent, req: Request, res: Response): void {
  renderPage(res.status(409), 'case/conflict', conflictPage(on.knowledge, on.bench, req.path, sent))
}

/** Why the case cannot take the events now, in words. @throws BadRequest when they name what is not in the rulebook */
function refusal(on: OnBench, events: readonly CaseEvent[]): string | null {
  for (const event of events) {
    if (!CaseEventShape.safeParse(event).success)
      throw new BadRequest('Something in this form does not fit; load the page again and send it once more.')
    const [problem] = eventProblems(on.knowledge, on.bench.kind, event)
    if (problem) throw outOfBook(problem.path.join('.'))
  }
  return conflictAmong(on.bench, events, on.assessment.stops)
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

/** The fields of a form. @throws BadRequest when the body is no form of ours */
export function sentBy(req: Request): Sent {
  const body: unknown = req.body
  if (typeof body !== 'object' || body === null)
    throw new BadRequest('Send this with the form on the page.', { status: 415 })
  return body as Sent
}

/** How many events the case had when the form was made. @throws BadRequest when the form does not say */
function seenOf(sent: Sent): number {
  const text = textOf(sent, 'seen')
  if (!/^\d{1,6}$/.test(text))
    throw new BadRequest('This form does not say which page it comes from; load the page again.', {
      field: 'seen',
    })
  return Number(text)
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
