/** What an exercise came to, small enough to be kept in memory for a whole class. Needs no planner. */
import type { EndWay, Exercise, ExerciseOutcome, Spread } from '../../shared/practice.js'
import type { Forecast } from './confidence.js'
import { brierScore, forecastsOf } from './confidence.js'
import { isMended } from './desk.js'
import type { Played } from './played.js'

export interface Result {
  readonly exercise: string
  readonly learner: string
  readonly kind: string
  readonly level: string
  /** when its last move was made; ISO 8601, UTC */
  readonly at: string
  /** ids of the causes that were there */
  readonly causes: readonly string[]
  readonly over: EndWay | 'slip'
  readonly mended: boolean
  /** ids of slips, those that were only noted too */
  readonly slips: readonly string[]
  /** the points that count; undefined where none were spread before the first fix */
  readonly spread: Spread | undefined
  /** by suspect of the level; empty without points */
  readonly forecasts: readonly (Forecast & { readonly cause: string })[]
  /** in [0, 2]; undefined without points */
  readonly brier: number | undefined
}

/** @returns undefined while the exercise goes on */
export function resultOf({ exercise, desk, start, done, now }: Played): Result | undefined {
  if (now.over === undefined) return undefined
  const { model } = desk.kind
  return resultFrom(exercise, {
    over: now.over,
    mended: isMended(now),
    causes: start.causes.map((c) => model.causes[c]!.id),
    suspects: model.causes.map(({ id }) => id),
    slips: done.flatMap(({ slips }) => slips.map(({ id }) => id)),
    ...(now.spread && { spread: now.spread }),
  })
}

/** The same from what was kept of it. */
export function resultFrom(
  { id, learner, kind, level, changedAt }: Pick<Exercise, 'id' | 'learner' | 'kind' | 'level' | 'changedAt'>,
  { over, mended, causes, suspects, slips, spread }: Omit<ExerciseOutcome, 'shown' | 'score' | 'lostMinutes'>,
): Result {
  const forecasts = spread ? forecastsOf(spread, suspects, causes) : []
  return {
    exercise: id,
    learner,
    kind,
    level,
    at: changedAt,
    causes,
    over,
    mended,
    slips,
    spread,
    forecasts,
    brier: spread ? brierScore(forecasts) : undefined,
  }
}

/** Points that a cause could have had: of several causes each is due its equal part. In [0, 100]. */
export const pointsOn = ({ spread, causes }: Pick<Result, 'spread' | 'causes'>, cause: string): number =>
  Math.min(100, (spread?.points[cause] ?? 0) * Math.max(1, causes.length))
