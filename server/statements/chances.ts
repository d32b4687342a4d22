/** Likeness and how often a thing is told → the chance that it is meant. */
import type { Likeness } from './likeness.js'

/** All that speaks for one statement. */
export interface Evidence {
  readonly id: string
  readonly alike: readonly Likeness[]
  /** P(somebody with a tool in trouble tells it unasked) */
  readonly told: number
}

export interface Meant {
  readonly id: string
  readonly chance: number
}

/**
 * Log-odds are linear in these, fitted on the complaints to tune on (tests/statements/): `heard` and `covered` by
 * their logarithm, `told` too, and how far a better statement claims the same words.
 */
export const weights = { constant: 3.2, heard: 5, covered: 2.6, told: 0.45, claimed: 1 }

/** @returns likeliest first */
export function chances(evidence: readonly Evidence[]): Meant[] {
  const scored = evidence
    .map(({ id, alike, told }) => ({ id, ...best(alike), told }))
    .map((it) => ({ ...it, score: it.score + weights.told * Math.log(Math.max(it.told, 1e-4)) }))
    .sort((a, b) => b.score - a.score)
  return scored
    .map(({ id, score, places }, i) => {
      const rivals = scored.slice(0, i).filter((rival) => overlaps(rival.places, places))
      const lead = rivals.length > 0 ? rivals[0]!.score - score : 0
      return { id, chance: 1 / (1 + Math.exp(-(weights.constant + score - weights.claimed * lead))) }
    })
    .sort((a, b) => b.chance - a.chance)
}

/** The likeness that speaks most for it. */
function best(alike: readonly Likeness[]): { score: number; places: ReadonlySet<number> } {
  return alike
    .map(({ heard, covered, places }) => ({
      score: weights.heard * Math.log(heard) + weights.covered * Math.log(covered),
      places,
    }))
    .reduce((a, b) => (b.score > a.score ? b : a))
}

/** Does the one rest mostly on words that the other rests on? */
function overlaps(one: ReadonlySet<number>, other: ReadonlySet<number>): boolean {
  const shared = [...other].filter((place) => one.has(place)).length
  return shared * 2 > other.size
}
