/** Means over simulated cases, with how far off they may be by chance. */
import type { Estimate } from '../../shared/proof.js'

/** Of cases drawn one like the other. */
export function meanOf(values: readonly number[]): Estimate {
  const n = values.length
  if (n === 0) return { mean: 0, se: 0 }
  const mean = values.reduce((sum, v) => sum + v, 0) / n
  const squares = values.reduce((sum, v) => sum + (v - mean) ** 2, 0)
  return { mean, se: n > 1 ? Math.sqrt(squares / (n - 1) / n) : 0 }
}

/**
 * Of cases drawn stratum by stratum, each stratum with its share of the whole (Cochran, Sampling Techniques, ch. 5). A
 * stratum of one case borrows the spread of the others; where all are of one case, that of all cases, which is more.
 *
 * @param strata shares that sum to 1, each with at least one value
 */
export function stratifiedMean(
  strata: readonly { readonly share: number; readonly values: readonly number[] }[],
): Estimate {
  const spreads = strata.flatMap(({ values }) =>
    values.length > 1 ? [meanOf(values).se ** 2 * values.length] : [],
  )
  const all = strata.flatMap(({ values }) => values)
  const usual = spreads.length > 0 ? meanOf(spreads).mean : meanOf(all).se ** 2 * all.length
  let mean = 0
  let variance = 0
  for (const { share, values } of strata) {
    const own = meanOf(values)
    mean += share * own.mean
    variance += share ** 2 * (values.length > 1 ? own.se ** 2 : usual)
  }
  return { mean, se: Math.sqrt(variance) }
}

/** Of each most in 1, 2, 3: the share of cases whose least number is no more. */
export function sharesWithin(least: readonly number[]): [Estimate, Estimate, Estimate] {
  const upTo = (most: number) => meanOf(least.map((n) => Number(n <= most)))
  return [upTo(1), upTo(2), upTo(3)]
}
