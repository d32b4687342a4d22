import type { Currency } from '../../shared/figures.js'
import type { Knowledge } from '../../shared/knowledge.js'
import type { Exercise, Learner, PracticeMove } from '../../shared/practice.js'
import { BadRequest } from '../errors.js'
import type { Played } from '../practice/played.js'
import { asLearner, may } from '../register/who-may.js'
import { numberOf, playedOf } from '../remembered/played.js'
import { onThisThread } from '../remembered/side-thread.js'
import type { SetStanding } from './set-of.js'
import { standingOfSet } from './set-of.js'
import type { AtHand } from '../wiring/deps.js'

/** An exercise with all that its pages need and its moves change. */
export interface PracticeBench {
  readonly hand: AtHand
  /** as it is stored; `played.exercise` is the same in the ids of today's rulebook */
  readonly exercise: Exercise
  readonly knowledge: Knowledge
  readonly played: Played
  readonly learner: Learner
  /** null for an exercise of somebody's own choice */
  readonly set: SetStanding | null
  /** what the plan would do next: for an exercise that shows it */
  readonly hint: () => Promise<PracticeMove>
  readonly showing: { readonly hidePrices: boolean; readonly currency: Currency }
}

/** @throws NotFound for an unknown exercise, BadRequest (422) where the rulebook has dropped its kind or level */
export async function practiceBench(hand: AtHand, id: string): Promise<PracticeBench> {
  return benchOf(hand, await hand.register.exercise(id))
}

/** @throws BadRequest (422) where the rulebook has dropped its kind or level */
export async function benchOf(hand: AtHand, exercise: Exercise): Promise<PracticeBench> {
  const { knowledge, prepared, register, shop } = hand
  const [learner, set, played] = await Promise.all([
    register.learner(exercise.learner),
    standingOfSet(register, exercise),
    playedOf(prepared, exercise, register).catch((error: unknown) => {
      if (!(error instanceof RangeError)) throw error
      throw new BadRequest(
        'The rulebook has changed since this exercise was begun and no longer has its kind of tool or its level; begin another.',
        { status: 422 },
      )
    }),
  ])
  const showing = { hidePrices: exercise.setting.hidePrices, currency: shop.record.currency }
  const { doSum = onThisThread } = hand
  const hint = () => doSum(prepared, 'hint', { exercise: played.exercise, shop: numberOf(register) })
  return { hand, exercise, knowledge, played, learner, set, hint, showing }
}

/** Moves are for whoever the exercise is of, until it is over or the instructor has closed it. */
export const mayMove = ({ learner, set, played: { exercise, now } }: PracticeBench): boolean =>
  may(asLearner(learner), {
    to: 'make moves',
    of: { learner: exercise.learner, over: now.over !== undefined || set?.closed === true },
  })
