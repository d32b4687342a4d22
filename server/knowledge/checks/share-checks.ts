/** Shares of a kind: a whole of 1000, and of a shape from which priors can be made. */
import { causesOf, fileOf, type Check } from '../rulebook.js'

const wholeKind = 1000
/** room for rounding in the shares */
const tolerance = 0.5

const sharesSum: Check = {
  name: 'shares-sum',
  description: 'The shares of a kind sum to 1000.',
  needs: ['causes'],
  run: (book) =>
    book.knowledge.kinds.flatMap(({ id }) => {
      const sum = causesOf(book, id).reduce((so, cause) => so + cause.shares[id]!, 0)
      if (Math.abs(sum - wholeKind) <= tolerance) return []
      return [
        {
          file: fileOf('kinds', id),
          field: '',
          message: `the shares of its causes sum to ${Number(sum.toFixed(3))}, not ${wholeKind}`,
          remedy: `correct shares.${id} in rules/causes/`,
        },
      ]
    }),
}

const priorsPossible: Check = {
  name: 'priors-possible',
  description: 'Some scale of the shares gives the stated share of tools with several faults.',
  needs: ['causes'],
  run: (book) =>
    book.knowledge.kinds.flatMap(({ id, severalFaults }) => {
      const shares = causesOf(book, id)
        .filter((cause) => !cause.exclusive)
        .map((cause) => cause.shares[id]!)
      const most = mostSeveral(shares)
      if (most > severalFaults.share) return []
      return [
        {
          file: fileOf('kinds', id),
          field: 'severalFaults.share',
          message: `${severalFaults.share} cannot be reached: with these shares at most ${most.toFixed(3)} of the tools have several faults`,
          remedy: 'lower it, or spread the shares over more causes',
        },
      ]
    }),
}

/**
 * P(two causes or more | one or more) for independent causes, scaled so that the commonest is nearly sure.
 * It grows with the scale, so this is the most that any scale can give.
 */
function mostSeveral(shares: readonly number[]): number {
  const scale = 0.999 / Math.max(...shares, 1e-9)
  let none = 1
  let one = 0
  for (const share of shares) {
    const p = scale * share
    one = one * (1 - p) + none * p
    none *= 1 - p
  }
  return none === 1 ? 0 : (1 - none - one) / (1 - none)
}

export const shareChecks: readonly Check[] = [sharesSum, priorsPossible]
