/** What the years say: when this tool's record would have had it replaced, and when the next one is best changed. */
import type { Figures } from '../../shared/figures.js'
import { bestAge, meanLife } from './economy/age-replacement.js'
import { economicLife } from './economy/annual.js'
import { dayCost } from './prices.js'

/** How tools of one make wear: failures gather round their usual life. A workshop estimate; 1 would be pure chance. */
export const wear = 2.5

export interface LongRun {
  /** from what it has cost year by year, at the price of a new one; null with less than two years of record */
  readonly record: ReturnType<typeof economicLife> | null
  /** the age at which the next one is best changed before it fails; Infinity where it pays to wait for that */
  readonly changeAt: number
  /** how much more a failure costs than a planned change, in minor units */
  readonly failureCostsMore: number
}

export function longRun(figures: Figures): LongRun {
  const { newPrice, newLife, newDays, interest, spentByYear } = figures
  const failureCostsMore = newDays * dayCost(figures)
  const scale = newLife / meanLife({ shape: wear, scale: 1 })
  return {
    record: spentByYear.length < 2 ? null : economicLife(newPrice, spentByYear, interest),
    changeAt: bestAge({ shape: wear, scale }, { planned: newPrice, failure: newPrice + failureCostsMore })
      .age,
    failureCostsMore,
  }
}
