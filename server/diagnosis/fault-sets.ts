/**
 * The likeliest sets of causes, each with its weight: what the planner looks ahead on, and what stands in
 * for the exact sum when there are too many positive findings. Widening search: all single causes, all
 * pairs, then the best `width` sets of each size grown by one cause.
 */
import type { NoisyOrModel, Observation, Tried } from './noisy-or.js'
import { havingMissed, isStillThere, seenBy, statesOf, weightsAlone } from './noisy-or.js'

/** A set of causes still there with its unnormalised weight. Causes already cured are summed out as far as searched. */
export interface FaultSet {
  /** ascending */
  readonly there: readonly number[]
  readonly weight: number
}

export interface SearchBounds {
  /** sets of one size that are grown further */
  readonly width: number
  /** most causes in one set (there or cured) */
  readonly depth: number
  /** sets lighter than this share of the heaviest found so far are dropped */
  readonly negligible: number
}

/** For planning and for reasons: up to three faults, and whatever weighs a 100 000th of the heaviest set. */
export const likeliest: SearchBounds = { width: 24, depth: 3, negligible: 1e-5 }

/** Wider and deeper, in place of the exact sum. */
export const thorough: SearchBounds = { width: 48, depth: 14, negligible: 1e-9 }

/** A cause in one of its states besides absent. */
interface Option {
  readonly cause: number
  readonly stillThere: boolean
  /** odds against absent, with the negatives that it had to avoid */
  readonly odds: number
  /** by positive: P(not tripped by it) */
  readonly keep: Float64Array
}

/** A set of options on the way to be grown. */
interface Node {
  /** positions in the list of options, ascending */
  readonly members: readonly number[]
  readonly weight: number
}

/** What a search starts from: every option, and the weights while no cause is there. */
interface Start {
  readonly options: readonly Option[]
  /** weight of no cause at all, the negatives not leaking */
  readonly absent: number
  /** by positive: P(not leaked) */
  readonly leakMiss: Float64Array
  /** by positive: what its factor is multiplied by, the same in every set */
  readonly lift: Float64Array
}

/**
 * With so many positives a weight may fall below the least number there is. Each factor is then lifted half way, in
 * logarithms, from its leak to 1: weights of one search stay in proportion, and only those are ever compared.
 */
const manyPositives = 40

const liftOf = (model: NoisyOrModel, positives: readonly Observation[]): Float64Array =>
  Float64Array.from(positives, (o) =>
    positives.length > manyPositives ? 1 / Math.sqrt(Math.max(model.leaks[o.finding]!, 1e-3)) : 1,
  )

/**
 * @returns sets with something still there, each once, in no order. Weights are on the scale of `weigh` in
 *          posterior.ts; with more than 40 positives on one of their own.
 */
export function searchFaultSets(
  model: NoisyOrModel,
  observations: readonly Observation[],
  tried: readonly Tried[],
  bounds: SearchBounds,
): FaultSet[] {
  const start = startOf(model, observations, tried)
  const found = gatherer(start.options, bounds.negligible)
  let level: Node[] = [{ members: [], weight: 0 }]
  for (let size = 1; size <= bounds.depth && level.length > 0; size++) {
    const grown = grow(start, level, size, bounds, found)
    grown.sort((a, b) => b.weight - a.weight)
    level = size === 1 ? grown : grown.slice(0, bounds.width)
  }
  const alone = model.exclusive.flatMap((isExclusive, cause): FaultSet[] => {
    if (!isExclusive) return []
    const weight = start.lift.reduce(
      (lifted, by) => lifted * by,
      weightsAlone(model, cause, observations, tried)[0]!,
    )
    return weight > 0 ? [{ there: [cause], weight }] : []
  })
  return [...found.sets(), ...alone]
}

function startOf(model: NoisyOrModel, observations: readonly Observation[], tried: readonly Tried[]): Start {
  const positives = observations.filter((o) => o.present)
  const negatives = observations.filter((o) => !o.present)
  const options: Option[] = []
  let absent = 1
  model.priors.forEach((prior, cause) => {
    absent *= 1 - prior
    if (!model.exclusive[cause]) options.push(...optionsOf(model, cause, prior, positives, negatives, tried))
  })
  for (const o of negatives) absent *= 1 - model.leaks[o.finding]!
  const leakMiss = Float64Array.from(positives, (o) => 1 - model.leaks[o.finding]!)
  return { options, absent, leakMiss, lift: liftOf(model, positives) }
}

/** Hands every set of this size that is heavy enough to `found`; @returns those to be grown further. */
function grow(
  { options, absent, leakMiss, lift }: Start,
  level: readonly Node[],
  size: number,
  bounds: SearchBounds,
  found: Gatherer,
): Node[] {
  const grown: Node[] = []
  const seen = new Set<string>()
  const isAmongBest = risingThreshold(bounds.width)
  for (const node of level) {
    const { base, miss } = partsOf(node, options, absent, leakMiss)
    // Singles and pairs are searched in full, each once in ascending order; beyond, what was kept is grown.
    const from = size <= 2 ? (node.members[node.members.length - 1] ?? -1) + 1 : 0
    for (let k = from; k < options.length; k++) {
      const option = options[k]!
      if (node.members.some((m) => options[m]!.cause === option.cause)) continue
      const weight = grownWeight(base, miss, lift, option)
      if (found.isNegligible(weight)) continue
      const members = ascending(node.members, k)
      if (size > 2) {
        const key = members.join(',')
        if (seen.has(key)) continue
        seen.add(key)
      }
      found.add(members, weight)
      if (size < bounds.depth && (size === 1 || isAmongBest(weight))) grown.push({ members, weight })
    }
  }
  return grown
}

/** Weight of a set grown by one option: what each positive still misses, and the odds so far. */
function grownWeight(base: number, miss: Float64Array, lift: Float64Array, { odds, keep }: Option): number {
  let weight = base * odds
  for (let p = 0; p < miss.length; p++) weight *= (1 - miss[p]! * keep[p]!) * lift[p]!
  return weight
}

interface Gatherer {
  isNegligible(weight: number): boolean
  add(members: readonly number[], weight: number): void
  sets(): FaultSet[]
}

/** Sums the weights of all sets that differ only in what was cured, against the heaviest seen so far. */
function gatherer(options: readonly Option[], negligible: number): Gatherer {
  const sums = new Map<string, { there: readonly number[]; weight: number }>()
  let heaviest = 0
  const isNegligible = (weight: number): boolean => weight <= heaviest * negligible
  return {
    isNegligible,
    add(members, weight) {
      if (weight > heaviest) heaviest = weight
      if (isNegligible(weight)) return
      const there = members.filter((k) => options[k]!.stillThere).map((k) => options[k]!.cause)
      if (there.length === 0) return
      const key = there.join(',')
      const known = sums.get(key)
      if (known) known.weight += weight
      else sums.set(key, { there, weight })
    },
    sets: () => [...sums.values()],
  }
}

/** Tells whether a weight is worth keeping: a threshold that rises, and keeps at least the best `width`. */
function risingThreshold(width: number): (weight: number) => boolean {
  let best: number[] = []
  let threshold = 0
  return (weight) => {
    if (weight <= threshold) return false
    best.push(weight)
    if (best.length >= width * 4) {
      best = best.sort((a, b) => b - a).slice(0, width)
      threshold = best[width - 1]!
    }
    return true
  }
}

function partsOf(node: Node, options: readonly Option[], absent: number, leakMiss: Float64Array) {
  let base = absent
  const miss = leakMiss.slice()
  for (const m of node.members) {
    base *= options[m]!.odds
    const { keep } = options[m]!
    for (let p = 0; p < miss.length; p++) miss[p]! *= keep[p]!
  }
  return { base, miss }
}

function optionsOf(
  model: NoisyOrModel,
  cause: number,
  prior: number,
  positives: readonly Observation[],
  negatives: readonly Observation[],
  tried: readonly Tried[],
): Option[] {
  return statesOf(prior, cause, tried)
    .filter((state) => state.weight > 0)
    .map((state) => ({
      cause,
      stillThere: isStillThere(state),
      odds: havingMissed(state.weight / (1 - prior), model, cause, state, negatives),
      keep: Float64Array.from(positives, (o) =>
        seenBy(state, o) ? 1 - model.strengths[o.finding]![cause]! : 1,
      ),
    }))
}

function ascending(list: readonly number[], value: number): number[] {
  const result = [...list, value]
  for (let k = result.length - 1; k > 0 && result[k]! < result[k - 1]!; k--) {
    ;[result[k - 1], result[k]] = [result[k]!, result[k - 1]!]
  }
  return result
}
