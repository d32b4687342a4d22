/** An exercise's moves made one after the other: events → how things stand. */
import type { Exercise } from '../../shared/practice.js'
import type { Prepared } from '../diagnosis/prepare.js'
import type { Desk, BenchState } from './desk.js'
import { isMended, layOut, startOf } from './desk.js'
import type { Done } from './moves.js'
import { makeMove } from './moves.js'

export interface Played {
  readonly exercise: Exercise
  readonly desk: Desk
  readonly start: BenchState
  readonly done: readonly Done[]
  readonly now: BenchState
}

/** @throws RangeError for an unknown kind or level */
export async function playOut(prepared: Prepared, exercise: Exercise): Promise<Played> {
  const desk = await layOut(prepared, exercise)
  const start = startOf(desk)
  return playOn({ exercise: { ...exercise, moves: [] }, desk, start, done: [], now: start }, exercise)
}

/**
 * The same exercise with the moves that came since: what was worked out for the earlier ones stays.
 *
 * @param exercise begins with the moves of `played`
 */
export async function playOn(played: Played, exercise: Exercise): Promise<Played> {
  const done = [...played.done]
  let now = played.now
  for (const move of exercise.moves.slice(done.length)) {
    const made = await makeMove(played.desk, now, move)
    done.push(made)
    now = made.after
  }
  return { ...played, exercise, done, now }
}

/** Points are taken until the first repair. */
export const canSpread = ({ now }: Pick<Played, 'now'>): boolean =>
  now.situation.fixesTried.length === 0 && !isMended(now)
