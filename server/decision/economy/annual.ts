/**
 * Money over years: what a sum now is worth as so much a year, so that tools of different lives can be compared.
 * Textbook engineering economy; rates are a share a year (0.05 is 5 %), years are positive, sums are at year's end
 * unless said otherwise.
 */

/**
 * Capital recovery factor A/P: i(1 + i)^n / ((1 + i)^n − 1), and 1/n without interest.
 *
 * @param rate  interest, a share a year, 0 or more
 * @param years above 0, need not be whole
 * @returns what 1 now costs a year over the years
 * @throws RangeError for a negative rate or years not above 0
 */
export function capitalRecovery(rate: number, years: number): number {
  if (!(rate >= 0) || !(years > 0) || !Number.isFinite(years))
    throw new RangeError(
      `capital recovery needs a rate of 0 or more and years above 0, not ${rate}, ${years}`,
    )
  if (rate * years < 1e-12) return 1 / years // nothing, to all the digits there are
  // (1 + i)^-n by way of logarithms keeps its digits where the rate is small
  const shrunk = Math.expm1(-years * Math.log1p(rate))
  return -rate / shrunk
}

/** Present worth factor P/A: what 1 a year over the years is worth now; 0 for no years. */
export const presentWorthOfYearly = (rate: number, years: number): number =>
  years === 0 ? 0 : 1 / capitalRecovery(rate, years)

/** Present worth factor P/F: what 1 at the end of the years is worth now. */
export const presentWorthOfLater = (rate: number, years: number): number =>
  Math.exp(-years * Math.log1p(rate))

/** Sinking fund factor A/F: what must be laid by a year to have 1 at the end. A/P = A/F + i. */
export const sinkingFund = (rate: number, years: number): number => capitalRecovery(rate, years) - rate

/** A tool as money: paid now, so much a year, served for so long, sold for something at the end. */
export interface Service {
  readonly now: number
  readonly yearly: number
  readonly years: number
  readonly salvage?: number
}

/** Equivalent annual cost: the level sum a year that is worth the same as all of it. */
export function equivalentAnnualCost({ now, yearly, years, salvage = 0 }: Service, rate: number): number {
  return now * capitalRecovery(rate, years) + yearly - salvage * sinkingFund(rate, years)
}

/**
 * Economic life: the number of whole years after which the mean cost a year is least, from what each year cost.
 *
 * @param price    paid at the start
 * @param upkeep   what year 1, 2, … cost, at least one year
 * @param salvage  what it is worth after so many years; nothing unless told
 * @returns the best number of years and its equivalent annual cost. `years` equal to the years told means that it was
 *          still falling: the record does not show the end of its economic life yet.
 */
export function economicLife(
  price: number,
  upkeep: readonly number[],
  rate: number,
  salvage: (years: number) => number = () => 0,
): { readonly years: number; readonly yearly: number; readonly stillFalling: boolean } {
  if (upkeep.length === 0) throw new RangeError('an economic life needs what at least one year cost')
  let worth = price
  let best = { years: 0, yearly: Infinity }
  upkeep.forEach((cost, k) => {
    const years = k + 1
    worth += cost * presentWorthOfLater(rate, years)
    const left = salvage(years) * presentWorthOfLater(rate, years)
    const yearly = (worth - left) * capitalRecovery(rate, years)
    if (yearly < best.yearly) best = { years, yearly }
  })
  return { ...best, stillFalling: best.years === upkeep.length }
}
