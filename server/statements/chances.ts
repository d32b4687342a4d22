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
 * Log-odds are linear in these, fitted on the complaints to tune on (tests/statements/): shares, weights and `told` by
 * their logarithm, clauses joined by their number, and how far a better statement claims the same words.
 */
export const fitted = {
  constant: 2.3,
  heard: 4.1,
  covered: 1.6,
  coveredOfAll: 0.4,
  shared: 1,
  joins: 0,
  told: 0.55,
  claimed: 2,
}

export type Weights = Readonly<Record<keyof typeof fitted, number>>

/** @returns likeliest first */
export function chances(evidence: readonly Evidence[], weights: Weights = fitted): Meant[] {
  const scored = evidence
    .map(({ id, alike, told }) => ({ id, told, ...best(alike, weights) }))
    .map((it) => ({ ...it, score: it.score + weights.told * Math.log(Math.max(it.told, leastTold)) }))
    .sort((a, b) => b.score - a.score)
  return scored
    .map(({ id, score, places }, i) => {
      const rival = scored.slice(0, i).find((it) => overlaps(it.places, places))
      const claimed = rival ? rival.score - score : 0
      return { id, chance: 1 / (1 + Math.exp(-(weights.constant + score - weights.claimed * claimed))) }
    })
    .sort((a, b) => b.chance - a.chance)
}

/** What is never told unasked is told once in ten thousand times. */
const leastTold = 1e-4

/** The likeness that speaks most for it. */
function best(alike: readonly Likeness[], weights: Weights): { score: number; places: ReadonlySet<number> } {
  return alike
    .map((it) => ({ score: scoreOf(it, weights), places: it.places }))
    .reduce((a, b) => (b.score > a.score ? b : a))
}

const scoreOf = ({ heard, covered, coveredOfAll, shared, joins }: Likeness, weights: Weights): number =>
  weights.heard * Math.log(heard) +
  weights.covered * Math.log(covered) +
  weights.coveredOfAll * Math.log(coveredOfAll) +
  weights.shared * Math.log(shared) +
  weights.joins * joins

/** Does the one rest mostly on words that the other rests on? */
function overlaps(one: ReadonlySet<number>, other: ReadonlySet<number>): boolean {
  const shared = [...other].filter((place) => one.has(place)).length
  return shared * 2 > other.size
}
