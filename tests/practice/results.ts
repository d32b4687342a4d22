/** Results out of thin air: what a learner came to, without a bench. */
import { brierScore, forecastsOf } from '../../server/practice/confidence.js'
import type { Result } from '../../server/practice/result.js'

export const day = (from: string, days: number): string =>
  new Date(Date.parse(from) + days * 86_400_000).toISOString()

/** Sent in after points well spread, unless told otherwise. */
export function resultWith(more: Partial<Result>, suspects: readonly string[] = ['a', 'b', 'c']): Result {
  const result = {
    exercise: 'exercise-1',
    learner: 'learner-1',
    kind: 'tiny',
    level: 'first',
    at: '2026-01-05T09:00:00.000Z',
    causes: ['a'],
    over: 'send-in' as const,
    mended: false,
    slips: [],
    spread: undefined,
    ...more,
  }
  const forecasts = result.spread ? forecastsOf(result.spread, suspects, result.causes) : []
  return { ...result, forecasts, brier: result.spread ? brierScore(forecasts) : undefined }
}
