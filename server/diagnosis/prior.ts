/**
 * Shares of troubled tools → prior probabilities of independent causes.
 *
 * The rulebook says of 1000 troubled tools in how many a cause is the main one. One factor a kind scales the
 * shares to π_i so that, of tools in trouble, the stated share has two causes or more. Unscaled, far too many
 * would have several.
 */

/** P(two causes or more | at least one), causes independent, exclusive ones only alone. */
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

/**
 * @param shares    per 1000, positive, any sum
 * @param exclusive by cause
 * @param target    share of troubled tools with several causes, in (0, 1)
 * @returns π by cause, in (0, 1)
 * @throws RangeError where no factor gives the target (fewer than two ordinary causes)
 */
export function calibratedPriors(
  shares: readonly number[],
  exclusive: readonly boolean[],
  target: number,
): number[] {
  const scaled = (factor: number) => shares.map((share) => (share / 1000) * factor)
  const largest = Math.max(...shares) / 1000
  let low = 0
  let high = 0.999 / largest
  if (!(severalShare(scaled(high), exclusive) > target)) {
    throw new RangeError(
      `no scale of these ${shares.length} shares makes ${target} of the tools have several causes`,
    )
  }
  for (let step = 0; step < 200; step++) {
    const middle = (low + high) / 2
    if (severalShare(scaled(middle), exclusive) < target) low = middle
    else high = middle
  }
  return scaled(high)
}
