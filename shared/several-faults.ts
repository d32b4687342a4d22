/** How often a troubled tool has several causes at once, when its causes come and go independently. */

/**
 * P(two causes or more | at least one), exclusive ones only alone.
 *
 * @param priors    probability of each cause, in [0, 1)
 * @param exclusive by cause: does it exclude all others ("nothing wrong")?
 * @returns a share in [0, 1]; NaN where no cause can be there at all
 */
export function severalShare(priors: readonly number[], exclusive: readonly boolean[]): number {
  let none = 1 // no ordinary cause
  let one = 0 // exactly one ordinary cause
  let exclusiveAbsent = 1
  priors.forEach((p, i) => {
    if (exclusive[i]) {
      exclusiveAbsent *= 1 - p
    } else {
      one = one * (1 - p) + none * p
      none *= 1 - p
    }
  })
  let exclusiveAlone = 0
  priors.forEach((p, i) => {
    if (!exclusive[i]) return
    const others = priors.reduce((w, q, j) => (exclusive[j] && j !== i ? w * (1 - q) : w), 1)
    exclusiveAlone += p * others * none
  })
  const several = exclusiveAbsent * (1 - none - one)
  const trouble = exclusiveAbsent * (1 - none) + exclusiveAlone
  return several / trouble
}

/** The scale of these shares (positive, any sum) at which the commonest cause is nearly sure: P = 0.999. */
export const greatestScale = (shares: readonly number[]): number => 0.999 / Math.max(...shares)
