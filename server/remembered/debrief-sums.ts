/** The heavy part of practice: what each move was worth, and the next, as plain data that a thread can hand back. */
import type { Exercise, PracticeMove } from '../../shared/practice.js'
import type { Prepared } from '../diagnosis/prepare.js'
import type { Debrief, DebriefStep } from '../practice/debrief.js'
import { debriefOf } from '../practice/debrief.js'
import { plansMove } from '../practice/model-player.js'
import type { Played } from '../practice/played.js'
import { noPause } from '../practice/score.js'
import type { Pause } from '../practice/score.js'
import { worthOf } from '../practice/worth.js'
import { playedIn } from './played.js'

/** An exercise, and the number of its shop. */
export interface OfExercise {
  readonly exercise: Exercise
  readonly shop: number
}

/** A debrief without what the exercise itself tells. */
export interface DebriefSum extends Omit<Debrief, 'steps' | 'slips'> {
  readonly steps: readonly Omit<DebriefStep, 'done' | 'slips'>[]
}

export async function debriefSum(
  prepared: Prepared,
  { exercise, shop }: OfExercise,
  pause: Pause = noPause,
): Promise<DebriefSum> {
  const { slips: _slips, steps, ...rest } = await debriefOf(await playedIn(prepared, exercise, shop), pause)
  return { ...rest, steps: steps.map(({ done: _done, slips: _its, ...step }) => step) }
}

/** @param played the same exercise, here */
export const wholeDebrief = ({ done }: Played, { steps, ...rest }: DebriefSum): Debrief => ({
  ...rest,
  steps: steps.map((step, k) => ({ ...step, done: done[k]!, slips: done[k]!.slips })),
  slips: done.flatMap(({ slips }) => slips),
})

export async function hintSum(prepared: Prepared, { exercise, shop }: OfExercise): Promise<PracticeMove> {
  const { desk, now } = await playedIn(prepared, exercise, shop)
  return plansMove(desk, now)
}

/** What the latest move was worth: the debrief finds it worked out. */
export async function thinkSum(
  prepared: Prepared,
  { exercise, shop }: OfExercise,
  pause: Pause = noPause,
): Promise<null> {
  const { desk, done } = await playedIn(prepared, exercise, shop)
  const last = done.at(-1)
  if (last === undefined || last.refused !== undefined) return null
  await pause()
  await plansMove(desk, last.before)
  await pause()
  if (!last.slips.some(({ grade }) => grade === 'ends'))
    await worthOf(desk, last.before, last.move, last.after.situation)
  return null
}
