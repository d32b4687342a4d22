/** Shares of a kind: a whole of 1000, and of a shape from which priors can be made. */
import { greatestScale, severalShare } from '../../../shared/several-faults.js'
import type { Cause } from '../../../shared/knowledge.js'
import { causesOf, fileOf, listed, type Check } from '../rulebook.js'

const wholeKind = 1000
/** room for rounding in the shares */
const tolerance = 0.5

const sharesSum: Check = {
  name: 'shares-sum',
  description: 'The shares of a kind sum to 1000.',
  needs: ['causes'],
  run: (book) =>
    book.knowledge.kinds.flatMap(({ id }) => {
      const causes = causesOf(book, id)
      const sum = causes.reduce((so, cause) => so + cause.shares[id]!, 0)
      if (Math.abs(sum - wholeKind) <= tolerance) return []
      const over = Number((sum - wholeKind).toFixed(3))
      const act = over > 0 ? `take ${over} from` : `give ${-over} to`
      return [
        {
          file: fileOf('kinds', id),
          field: '',
          message: `the shares of its causes sum to ${Number(sum.toFixed(3))}, not ${wholeKind}`,
          remedy: `${act} shares.${id} of causes in rules/causes/; the greatest are ${greatest(causes, id)}`,
        },
      ]
    }),
}

/** `worn-brushes (95) and broken-cord (80)`: where there is most to take from. */
function greatest(causes: readonly Cause[], kind: string): string {
  const most = [...causes].sort((a, b) => b.shares[kind]! - a.shares[kind]!).slice(0, 3)
  return listed(most.map((cause) => `${cause.id} (${cause.shares[kind]})`))
}

const priorsPossible: Check = {
  name: 'priors-possible',
  description: 'Some scale of the shares gives the stated share of tools with several faults.',
  needs: ['causes'],
  run: (book) =>
    book.knowledge.kinds.flatMap(({ id, severalFaults }) => {
      const causes = causesOf(book, id)
      const shares = causes.map((cause) => cause.shares[id]!)
      const most = mostSeveral(
        shares,
        causes.map((cause) => cause.exclusive),
      )
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

/** It grows with the scale of the shares, so the greatest scale gives the most that any can; 0 without causes. */
function mostSeveral(shares: readonly number[], exclusive: readonly boolean[]): number {
  const scale = greatestScale(shares)
  const most = severalShare(
    shares.map((share) => share * scale),
    exclusive,
  )
  return Number.isNaN(most) ? 0 : most
}

export const shareChecks: readonly Check[] = [sharesSum, priorsPossible]
