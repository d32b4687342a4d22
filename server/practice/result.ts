/** What an exercise came to, small enough to be kept in memory for a whole class. Needs no planner. */
import type { EndWay, Spread } from '../../shared/practice.js'
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
  const causes = start.causes.map((c) => model.causes[c]!.id)
  const suspects = model.causes.map(({ id }) => id)
  const forecasts = now.spread ? forecastsOf(now.spread, suspects, causes) : []
  return {
    exercise: exercise.id,
    learner: exercise.learner,
    kind: exercise.kind,
    level: exercise.level,
    at: exercise.changedAt,
    causes,
    over: now.over,
    mended: isMended(now),
    slips: done.flatMap(({ slips }) => slips.map(({ id }) => id)),
    spread: now.spread,
    forecasts,
    brier: now.spread ? brierScore(forecasts) : undefined,
  }
}

/** Points that a cause could have had: of several causes each is due its equal part. In [0, 100]. */
export const pointsOn = ({ spread, causes }: Pick<Result, 'spread' | 'causes'>, cause: string): number =>
  Math.min(100, (spread?.points[cause] ?? 0) * Math.max(1, causes.length))
