/** What the years say: when this tool's record would have had it replaced, and when the next one is best changed. */
import type { Figures } from '../../shared/figures.js'
import { bestAge } from './economy/age-replacement.js'
import { economicLife } from './economy/annual.js'
import { dayCost, toolLife } from './prices.js'

export interface LongRun {
  /** from what it has cost year by year, at the price of a new one; null with less than two years of record */
  readonly record: ReturnType<typeof economicLife> | null
  /** the age at which the next one is best changed before it fails; Infinity where it pays to wait for that */
  readonly changeAt: number
  /** how much more a failure costs than a planned change, in minor units */
  readonly failureCostsMore: number
}

export function longRun(figures: Figures): LongRun {
  const { newPrice, newDays, interest, spentByYear } = figures
  const failureCostsMore = newDays * dayCost(figures)
  return {
    record: spentByYear.length < 2 ? null : economicLife(newPrice, spentByYear, interest),
    changeAt: bestAge(toolLife(figures), { planned: newPrice, failure: newPrice + failureCostsMore }).age,
    failureCostsMore,
  }
}
