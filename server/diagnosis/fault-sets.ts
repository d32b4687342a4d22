/**
 * The likeliest sets of causes, each with its weight: what the planner looks ahead on, and what stands in
 * for the exact sum when there are too many positive findings. Widening search: all single causes, all
 * pairs, then the best `width` sets of each size grown by one cause.
 */
import type { CauseState, NoisyOrModel, Observation, Tried } from './noisy-or.js'
import { seenBy, statesOf } from './noisy-or.js'

/** A set of causes still there, unnormalised weight. Causes already cured are summed out as far as searched. */
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

/**
 * @returns sets with something still there, each once, in no order. Weights are on the scale of `weigh` in
 *          posterior.ts.
 */
export function searchFaultSets(
  model: NoisyOrModel,
  observations: readonly Observation[],
  tried: readonly Tried[],
  bounds: SearchBounds,
): FaultSet[] {
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

  /** Weight of a set grown by one option: what each positive still misses, and the odds so far. */
  const grownWeight = (base: number, miss: Float64Array, option: Option): number => {
    let weight = base * option.odds
    const { keep } = option
    for (let p = 0; p < miss.length; p++) weight *= 1 - miss[p]! * keep[p]!
    return weight
  }
  const sums = new Map<string, { there: readonly number[]; weight: number }>()
  let heaviest = 0
  const add = (members: readonly number[], weight: number) => {
    if (weight > heaviest) heaviest = weight
    if (weight <= heaviest * bounds.negligible) return
    const there = members.filter((k) => options[k]!.stillThere).map((k) => options[k]!.cause)
    if (there.length === 0) return
    const key = there.join(',')
    const known = sums.get(key)
    if (known) known.weight += weight
    else sums.set(key, { there, weight })
  }

  let level: Node[] = [{ members: [], weight: 0 }]
  for (let size = 1; size <= bounds.depth && level.length > 0; size++) {
    const grown: Node[] = []
    const seen = new Set<string>()
    const lightest = lightestKept(bounds.width)
    for (const node of level) {
      const { base, miss } = partsOf(node, options, absent, leakMiss)
      // Singles and pairs are searched in full, each once in ascending order; beyond, what was kept is grown.
      const from = size <= 2 ? (node.members[node.members.length - 1] ?? -1) + 1 : 0
      for (let k = from; k < options.length; k++) {
        const option = options[k]!
        if (node.members.some((m) => options[m]!.cause === option.cause)) continue
        const weight = grownWeight(base, miss, option)
        if (weight <= heaviest * bounds.negligible) continue
        const members = ascending(node.members, k)
        if (size > 2) {
          const key = members.join(',')
          if (seen.has(key)) continue
          seen.add(key)
        }
        add(members, weight)
        if (size < bounds.depth && (size === 1 || lightest(weight))) grown.push({ members, weight })
      }
    }
    grown.sort((a, b) => b.weight - a.weight)
    level = size === 1 ? grown : grown.slice(0, bounds.width)
  }
  const found = [...sums.values()]
  model.exclusive.forEach((isExclusive, cause) => {
    if (!isExclusive) return
    const weight = aloneWeight(model, cause, observations, tried)
    if (weight > 0) found.push({ there: [cause], weight })
  })
  return found
}

/** Tells whether a weight is worth keeping: a rising threshold that keeps at least the best `width`. */
function lightestKept(width: number): (weight: number) => boolean {
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
  const odds = (state: CauseState): number => {
    let weight = state.weight / (1 - prior)
    for (const o of negatives) if (seenBy(state, o)) weight *= 1 - model.strengths[o.finding]![cause]!
    return weight
  }
  return statesOf(prior, cause, tried)
    .filter((state) => state.weight > 0)
    .map((state) => ({
      cause,
      stillThere: state.seesUpTo === Infinity,
      odds: odds(state),
      keep: Float64Array.from(positives, (o) =>
        seenBy(state, o) ? 1 - model.strengths[o.finding]![cause]! : 1,
      ),
    }))
}

/** An exclusive cause, everything else absent. */
function aloneWeight(
  model: NoisyOrModel,
  cause: number,
  observations: readonly Observation[],
  tried: readonly Tried[],
): number {
  let weight = statesOf(model.priors[cause]!, cause, tried)[0]!.weight
  model.priors.forEach((p, i) => {
    if (i !== cause) weight *= 1 - p
  })
  for (const o of observations) {
    const miss = (1 - model.leaks[o.finding]!) * (1 - model.strengths[o.finding]![cause]!)
    weight *= o.present ? 1 - miss : miss
  }
  return weight
}

function ascending(list: readonly number[], value: number): number[] {
  const result = [...list, value]
  for (let k = result.length - 1; k > 0 && result[k]! < result[k - 1]!; k--) {
    ;[result[k - 1], result[k]] = [result[k]!, result[k - 1]!]
  }
  return result
}
