/** Making moves of an exercise: looked at before they are stored, stored one by one, the outcome kept at the end. */
import type { Request, Response } from 'express'
import type { Exercise, PracticeMove } from '../../../shared/practice.js'
import type { AtHand, Deps } from '../../wiring/deps.js'
import { atHand } from '../../wiring/deps.js'
import { BadRequest, StaleForm } from '../../errors.js'
import { outcomeOf, playedOf, thinkAhead } from '../../remembered/exercises.js'
import type { Sent } from '../../forms/answer-form.js'
import { textOf } from '../../forms/answer-form.js'
import type { AtBench, NotMade } from '../../pages/practice/bench-page.js'
import { canSpread, exerciseHref, practiceBenchPage } from '../../pages/practice/bench-page.js'
import { keyOf } from '../../pages/practice/move-key.js'
import { moveAsAdvice, moveWords } from '../../pages/practice/move-words.js'
import { problemPage } from '../../pages/layout/problem-page.js'
import { renderPage } from '../../pages/render.js'
import { makeMove } from '../../practice/moves.js'
import type { Viewer, Wish } from '../../register/who-may.js'
import { asLearner, may } from '../../register/who-may.js'
import { keepDebrief } from './outcomes.js'

export interface Bench {
  readonly hand: AtHand
  readonly exercise: Exercise
  readonly at: AtBench
  /** for whom the request is taken */
  readonly who: Viewer
}

export const debriefHref = (id: string): string => `${exerciseHref(id)}/debrief`

/** @throws NotFound for an unknown exercise, BadRequest (422) where the rulebook has dropped its kind or level */
export async function onPracticeBench(deps: Deps, req: Request): Promise<Bench> {
  const hand = atHand(deps, req)
  return benchOf(hand, await hand.register.exercise(String(req.params['id'])))
}

async function benchOf(hand: AtHand, exercise: Exercise): Promise<Bench> {
  const { knowledge, prepared, register, shop } = hand
  const [learner, played] = await Promise.all([
    register.learner(exercise.learner),
    playedOf(prepared, exercise).catch((error: unknown) => {
      if (!(error instanceof RangeError)) throw error
      throw new BadRequest(
        'The rulebook has changed since this exercise was begun and no longer has its kind of tool or its level; begin another.',
        { status: 422 },
      )
    }),
  ])
  const showing = { hidePrices: exercise.setting.hidePrices, currency: shop.record.currency }
  return { hand, exercise, at: { knowledge, played, learner, showing }, who: asLearner(learner) }
}

/** Moves are for whoever the exercise is of, until it is over. */
const toMove = ({ at: { played } }: Pick<Bench, 'at'>): Wish => ({
  to: 'make moves',
  of: { learner: played.exercise.learner, over: played.now.over !== undefined },
})

export const mayMove = (bench: Bench): boolean => may(bench.who, toMove(bench))

/** How many moves the sender had seen. @throws BadRequest when the form does not say */
export function seenIn(sent: Sent): number {
  const text = textOf(sent, 'seen')
  if (!/^\d{1,6}$/.test(text))
    throw new BadRequest(
      'This form does not say which page it comes from; open the exercise again and go on from there.',
      {
        field: 'seen',
      },
    )
  return Number(text)
}

/** Before the first repair, and before sending in, the learner says what they think it is; if it can be done at all. */
export async function pointsFirst(
  { at: { played }, exercise }: Bench,
  move: PracticeMove,
  seen: number,
): Promise<boolean> {
  const asks = move.type === 'tried' || (move.type === 'ended' && move.way === 'send-in')
  if (!asks || seen !== exercise.moves.length || played.now.spread !== undefined || !canSpread(played))
    return false
  return (await makeMove(played.desk, played.now, move)).refused === undefined
}

/** Where to go on; or the page to show instead, and why the move was not made. */
export type Made =
  | { readonly to: string }
  | { readonly to: null; readonly status: 409 | 422; readonly at: AtBench; readonly notMade: NotMade }

/**
 * Makes moves one after the other. What was sent twice is made once; what comes from an older page, or cannot be
 * done, is not stored.
 */
export async function madeAll(bench: Bench, moves: readonly PracticeMove[], seen: number): Promise<Made> {
  const there = bench.exercise.moves.slice(seen, seen + moves.length)
  // the same form once more, by a double press or by going back: it was done, so show what came of it
  if (there.length > 0 && isSame(there, moves)) return { to: onwardFrom(bench) }
  if (seen !== bench.exercise.moves.length) return olderPage(bench, moves)
  let now = bench
  for (const [k, move] of moves.entries()) {
    const done = await makeMove(now.at.played.desk, now.at.played.now, move)
    if (done.refused !== undefined)
      return {
        to: null,
        status: 422,
        at: now.at,
        notMade: { heading: 'That was not done', words: done.refused, again: null },
      }
    try {
      const at = now.hand.now().toISOString()
      now = await benchOf(now.hand, await now.hand.register.makeMove(now.exercise.id, move, at, seen + k))
    } catch (error) {
      if (!(error instanceof StaleForm)) throw error
      const fresh = await benchOf(now.hand, await now.hand.register.exercise(now.exercise.id))
      return isSame(fresh.exercise.moves.slice(seen, seen + moves.length), moves)
        ? { to: onwardFrom(fresh) }
        : olderPage(fresh, moves)
    }
  }
  if (now.at.played.now.over === undefined) thinkSoon(now)
  else await keepIfOver(now)
  return { to: onwardFrom(now) }
}

/** Milliseconds in which the page that follows a move is asked for: it comes before any thinking about the move. */
const pageFirst = 400

const thinkSoon = ({ at: { played } }: Bench): void => {
  setTimeout(() => void thinkAhead(played), pageFirst).unref()
}

/** Both have come through the same shape, which puts the fields in order. */
const isSame = (one: readonly PracticeMove[], other: readonly PracticeMove[]): boolean =>
  JSON.stringify(one) === JSON.stringify(other)

const onwardFrom = ({ at: { played }, exercise: { id } }: Bench): string =>
  played.now.over === undefined ? `${exerciseHref(id)}#last` : debriefHref(id)

/** What a finished exercise came to is kept at once; its score follows behind. */
export async function keepIfOver({ hand, exercise, at: { played } }: Bench): Promise<void> {
  const outcome = outcomeOf(played, null)
  if (!outcome) return
  if ((await hand.register.outcome(exercise.id)) === null)
    await hand.register.keepOutcome(exercise.id, outcome)
  keepDebrief(hand, played).catch(() => undefined)
}

/** The form is from an older page than the exercise: nothing is stored, and the same is offered from here. */
function olderPage({ at, exercise }: Bench, moves: readonly PracticeMove[]): Made {
  const { desk } = at.played
  const move = moves.at(-1)!
  const name = move.type === 'stood' ? moveWords(desk, move) : moveAsAdvice(desk, move)
  return {
    to: null,
    status: 409,
    at,
    notMade: {
      heading: 'That came from an older page',
      words: `“${name}” was sent from a page that is no longer how things stand, so it was not done. Below is what was done last: move ${exercise.moves.length} of this exercise.`,
      again: move.type === 'spread' ? null : { key: keyOf(move), name: `Do it now: ${name}` },
    },
  }
}

/** The bench with why the move was not made; where no more moves may be made, that. */
export async function refusedPage(
  res: Response,
  who: Viewer,
  { at, notMade, status }: Extract<Made, { to: null }>,
): Promise<void> {
  if (may(who, toMove({ at })))
    return renderPage(res.status(status), 'practice/bench', await practiceBenchPage(at, notMade))
  renderPage(res.status(409), 'layout/problem', {
    ...problemPage(409, 'This exercise is over, so nothing more was done.'),
    heading: 'This exercise is over',
    advice: 'Go back to Practice: its debrief stands among your last ones.',
  })
}
