/**
 * The figures of a kind after what a shop has confirmed: beta counts that start from the rulebook's figure with a stated
 * weight (so many cases' worth), and shares likewise as a Dirichlet law. What was never confirmed moves nothing.
 */
import type { Fix } from '../../shared/knowledge.js'
import type { ShopCounts, Tally } from '../../shared/situation.js'
import type { KindModel } from './model.js'
import { calibratedPriors } from './prior.js'

/** So many cases' worth are the rulebook's figures. Estimates; `tests/learning/` shows what they do to a shop's score. */
export const rulebookWorth = { shares: 40, strength: 12, cure: 8, minutes: 4, telling: 20 } as const

/** The mean of a beta law that starts from `figure` with `weight`, after a tally. @returns within (0, 1) if `figure` is */
export const afterTally = (
  figure: number,
  weight: number,
  { hits, of }: Tally = { hits: 0, of: 0 },
): number => (weight * figure + hits) / (weight + of)

/** By cause, in the order of the model: its share of confirmed and expected cases; they sum to 1. */
export function learnedShares(model: KindModel, counts: ShopCounts): readonly number[] {
  const shares = model.causes.map(({ shares }) => shares[model.kind.id] ?? 0)
  const all = shares.reduce((sum, share) => sum + share, 0)
  const confirmed = model.causes.reduce((sum, { id }) => sum + (counts.causes[id] ?? 0), 0)
  return model.causes.map(({ id }, i) =>
    afterTally(shares[i]! / all, rulebookWorth.shares, { hits: counts.causes[id] ?? 0, of: confirmed }),
  )
}

export function relearned(model: KindModel, counts: ShopCounts): KindModel {
  if (counts.cases === 0) return model
  const fixes = model.fixes.map((fix) => fixRelearned(fix, counts))
  return {
    ...model,
    priors: calibratedPriors(learnedShares(model, counts), model.exclusive, model.kind.severalFaults.share),
    strengths: model.findings.map(({ id }, f) => {
      const tallies = counts.findings[id]
      if (!tallies) return model.strengths[f]!
      const leak = model.leaks[f]!
      return model.causes.map((cause, c) => {
        const strength = model.strengths[f]![c]!
        const tally = tallies[cause.id]
        if (strength === 0 || !tally) return strength
        const seen = seenWhileThere(model, f, c)!
        const now = afterTally(seen, rulebookWorth.strength, tally)
        return Math.min(0.995, Math.max(0.005, 1 - (1 - now) / (1 - leak)))
      })
    }),
    curesOf: new Map(fixes.map((fix) => [fix.id, model.causes.map((cause) => fix.cures[cause.id] ?? 0)])),
    fixes,
  }
}

/**
 * P(finding | this cause alone is there), the leak included: it is what a shop can count.
 *
 * @param f place of the finding @param c place of the cause
 * @returns null where the finding does not speak of the cause
 */
export function seenWhileThere({ strengths, leaks }: KindModel, f: number, c: number): number | null {
  const strength = strengths[f]?.[c] ?? 0
  return strength === 0 ? null : 1 - (1 - leaks[f]!) * (1 - strength)
}

/** A fix with the chances of cure and the minutes that the shop has come to. */
function fixRelearned(fix: Fix, { fixes, minutes }: ShopCounts): Fix {
  const [tallies, told] = [fixes[fix.id], minutes[fix.id]]
  return {
    ...fix,
    ...(told && { minutes: afterMinutes(fix.minutes, told) }),
    ...(tallies && {
      cures: Object.fromEntries(
        Object.entries(fix.cures).map(([cause, chance]) => [
          cause,
          chance > 0 ? afterTally(chance, rulebookWorth.cure, tallies[cause]) : chance,
        ]),
      ),
    }),
  }
}

/** The mean of the rulebook's minutes, which count as so many times told, and those that were told. */
export const afterMinutes = (figure: number, { sum, of }: { sum: number; of: number }): number =>
  (rulebookWorth.minutes * figure + sum) / (rulebookWorth.minutes + of)

/** What everybody can tell, everybody still can. */
export const afterTelling = (chance: number, tally: Tally | undefined): number =>
  tally && chance < 1 ? Math.min(0.99, afterTally(chance, rulebookWorth.telling, tally)) : chance
