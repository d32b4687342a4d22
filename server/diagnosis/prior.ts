/**
 * Shares of troubled tools → prior probabilities of independent causes.
 *
 * The rulebook says of 1000 troubled tools in how many a cause is the main one. One factor a kind scales the
 * shares to π_i so that, of tools in trouble, the stated share has two causes or more. Unscaled, far too many
 * would have several.
 */
import { greatestScale, severalShare } from '../../shared/several-faults.js'

/** Halvings of the interval: more than a double has digits. */
const halvings = 200

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
  const scaled = (factor: number) => shares.map((share) => share * factor)
  let low = 0
  let high = greatestScale(shares)
  if (!(severalShare(scaled(high), exclusive) > target)) {
    throw new RangeError(
      `no scale of these ${shares.length} shares makes ${target} of the tools have several causes`,
    )
  }
  for (let step = 0; step < halvings; step++) {
    const middle = (low + high) / 2
    if (severalShare(scaled(middle), exclusive) < target) low = middle
    else high = middle
  }
  return scaled(high)
}
