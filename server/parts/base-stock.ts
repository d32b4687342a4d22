/**
 * How many to keep. Demand is Poisson at a rate that nobody knows; what is known of the rate is a gamma law, which the
 * shop's own uses sharpen (gamma–Poisson, conjugate). Over the days until the supplier delivers, demand is then negative
 * binomial. Base stock S: order one whenever one is used (Palm 1938; Feeney & Sherbrooke 1966); the share of demands met
 * from the shelf is P(D ≤ S−1), and nobody has to wait at a moment with P(D ≤ S). Pure.
 */

/** What is known of a rate: shape and rate of a gamma law; mean = shape / exposure. */
export interface Rate {
  readonly shape: number
  /** in years */
  readonly exposure: number
}

/** @param mean uses a year that one expects @param weight how many uses that expectation is worth, above 0 */
export const expectedRate = (mean: number, weight = 1): Rate => ({ shape: weight, exposure: weight / mean })

/** After so many uses in so many years. */
export const seen = ({ shape, exposure }: Rate, uses: number, years: number): Rate => ({
  shape: shape + uses,
  exposure: exposure + years,
})

export const meanOf = ({ shape, exposure }: Rate): number => shape / exposure

/** P(D ≤ most) over so many years; 0 below 0. */
export function demandAtMost({ shape, exposure }: Rate, years: number, most: number): number {
  if (most < 0) return 0
  if (years === 0) return 1
  const p = exposure / (exposure + years)
  let term = p ** shape
  let sum = term
  for (let k = 0; k < most; k++) {
    term *= ((shape + k) / (k + 1)) * (1 - p)
    sum += term
  }
  return Math.min(1, sum)
}

/**
 * The least base stock with which so large a share of demands is met from the shelf.
 *
 * @param level in (0, 1)
 */
export function baseStock(rate: Rate, years: number, level: number): number {
  let stock = 1
  while (demandAtMost(rate, years, stock - 1) < level && stock < mostKept) stock++
  return stock
}

/** No shelf holds more of one part. */
const mostKept = 200

/** The chance that more is asked for, before a delivery, than lies there. */
export const runsOut = (rate: Rate, years: number, stock: number): number =>
  1 - demandAtMost(rate, years, Math.floor(stock))
