/**
 * How well the points told where the trouble was.
 *
 * One exercise: the Brier score over all suspects (Brier, "Verification of forecasts expressed in terms of
 * probability", Monthly Weather Review 78, 1950),
 *
 *     BS = Σ over suspects of (p − o)² ,   0 (certain and right) to 2 (certain and wrong),
 *
 * with p the points over 100 and o = 1 for the cause that was there, 0 for all others; of k causes there, each has
 * o = 1/k. "Something else" is shared out evenly over the suspects that were given no points, so that it pays to say
 * how sure one is, and never to hide behind it: a proper score.
 *
 * A learner's record: Murphy's three parts (Murphy, "A new vector partition of the probability score", Journal of
 * Applied Meteorology 12, 1973) with steps of 10 points as bins. See `murphyParts`.
 */
import type { Spread } from '../../shared/practice.js'
import { stepOfPoints } from '../../shared/practice.js'

/** One suspect in one exercise: what was believed and what was so, both in [0, 1]. */
export interface Forecast {
  readonly forecast: number
  readonly outcome: number
}

/**
 * @param suspects ids of all causes that the level may have
 * @param there    ids of the causes that were there, one at least
 */
export function forecastsOf(
  { points, other }: Spread,
  suspects: readonly string[],
  there: readonly string[],
): (Forecast & { readonly cause: string })[] {
  const unnamed = suspects.filter((id) => !points[id]).length
  return suspects.map((cause) => ({
    cause,
    // with every suspect named, "something else" is nobody, and its points are lost
    forecast: (points[cause] || (unnamed > 0 ? other / unnamed : 0)) / 100,
    outcome: there.includes(cause) ? 1 / there.length : 0,
  }))
}

/** Brier's score of one exercise, in [0, 2]. */
export const brierScore = (forecasts: readonly Forecast[]): number =>
  forecasts.reduce((sum, { forecast, outcome }) => sum + (forecast - outcome) ** 2, 0)

/** One row of a reliability picture. */
interface Bin {
  /** mean of the forecasts in it, and of what was so; in [0, 1] */
  readonly forecast: number
  readonly outcome: number
  readonly count: number
}

export interface MurphyParts {
  /** mean of (forecast − outcome)² over all forecasts of the record */
  readonly score: number
  /** how far what was so lies from what was said, bin by bin: 0 is best */
  readonly reliability: number
  /** how far the bins lie from the base rate: more is better */
  readonly resolution: number
  /** what nobody can help: the spread of the outcomes themselves */
  readonly uncertainty: number
  /**
   * What lies inside the bins where forecasts in one differ (Stephenson, Coelho & Jolliffe, "Two extra components in
   * the Brier score decomposition", Weather and Forecasting 23, 2008): their variance less twice their covariance
   * with the outcome. 0 where every forecast is a whole step.
   */
  readonly within: number
  /** only those with something in them, lowest first */
  readonly bins: readonly Bin[]
}

/** Nearest whole step of points. */
const binOf = ({ forecast }: Forecast): number => Math.round((forecast * 100) / stepOfPoints)

/**
 * score = reliability − resolution + uncertainty + within, exactly. Holds for outcomes that are shares too:
 * `uncertainty` is their variance, which for yes and no is base rate times its rest.
 *
 * @returns undefined for an empty record
 */
export function murphyParts(record: readonly Forecast[]): MurphyParts | undefined {
  const count = record.length
  if (count === 0) return undefined
  const mean = (values: readonly number[]) => values.reduce((sum, v) => sum + v, 0) / values.length
  const base = mean(record.map(({ outcome }) => outcome))
  const byBin = new Map<number, Forecast[]>()
  for (const it of record) {
    const its = byBin.get(binOf(it))
    if (its) its.push(it)
    else byBin.set(binOf(it), [it])
  }
  let reliability = 0
  let resolution = 0
  let within = 0
  const bins: Bin[] = []
  for (const [, its] of [...byBin].sort(([a], [b]) => a - b)) {
    const forecast = mean(its.map((it) => it.forecast))
    const outcome = mean(its.map((it) => it.outcome))
    reliability += its.length * (forecast - outcome) ** 2
    resolution += its.length * (outcome - base) ** 2
    for (const it of its)
      within += (it.forecast - forecast) ** 2 - 2 * (it.forecast - forecast) * (it.outcome - outcome)
    bins.push({ forecast, outcome, count: its.length })
  }
  return {
    score: mean(record.map((it) => (it.forecast - it.outcome) ** 2)),
    reliability: reliability / count,
    resolution: resolution / count,
    uncertainty: mean(record.map(({ outcome }) => (outcome - base) ** 2)),
    within: within / count,
    bins,
  }
}
