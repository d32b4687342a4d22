/**
 * Isolation to L repairs: is the repair of each fault that is there among the first L repairs by posterior? Where two
 * faults need two repairs, they cannot both be the first; such a tool is isolated to 2 at best.
 *
 * A repair's posterior is the chance that some cause which it is for is there now. It is summed over the likeliest
 * fault sets: with everything answered, some twenty positive findings would make the exact tables too large. The test
 * holds it against the exact sum where that can be had.
 */
import type { FaultSet, SearchBounds } from '../diagnosis/fault-sets.js'
import { searchFaultSets } from '../diagnosis/fault-sets.js'
import type { NoisyOrModel, Observation } from '../diagnosis/noisy-or.js'
import type { RepairItems } from './repair-items.js'

/** Up to four faults at once, and what weighs a 100 000th of the heaviest set. */
export const isolationBounds: SearchBounds = { width: 48, depth: 4, negligible: 1e-5 }

/** Unnormalised chances of every repair and every cause. */
export interface Ranking {
  readonly items: Float64Array
  readonly causes: Float64Array
  readonly total: number
}

export function rankRepairs(
  model: NoisyOrModel,
  items: RepairItems,
  observations: readonly Observation[],
): Ranking {
  return rankingOf(searchFaultSets(model, observations, [], isolationBounds), items)
}

export function rankingOf(sets: readonly FaultSet[], items: RepairItems): Ranking {
  const ranking = {
    items: new Float64Array(items.ids.length),
    causes: new Float64Array(items.of.length),
    total: 0,
  }
  for (const { there, weight } of sets) {
    ranking.total += weight
    there.forEach((cause, k) => {
      ranking.causes[cause]! += weight
      const item = items.of[cause]!
      if (!there.some((other, j) => j < k && items.of[other] === item)) ranking.items[item]! += weight
    })
  }
  return ranking
}

/** 1 = likeliest; among equals the worse place, so that a tie is never luck. */
export function placeOf(weights: ArrayLike<number>, index: number): number {
  const own = weights[index]!
  let place = 0
  for (let k = 0; k < weights.length; k++) if (weights[k]! >= own) place++
  return place
}

/** How a tool came out. */
export interface Isolated {
  /** by fault there: the place of its repair among all repairs */
  readonly places: readonly number[]
  /** the least L to which the tool is isolated */
  readonly within: number
  /** the same where, for each fault, the repairs for the tool's other faults are not counted */
  readonly inTurn: number
  /** distinct repairs that its faults need: the least `within` that can be */
  readonly repairs: number
}

export function isolated(ranking: Ranking, items: RepairItems, causes: readonly number[]): Isolated {
  const needed = [...new Set(causes.map((cause) => items.of[cause]!))]
  const placeOfItem = new Map(needed.map((item) => [item, placeOf(ranking.items, item)]))
  const places = causes.map((cause) => placeOfItem.get(items.of[cause]!)!)
  const before = (place: number) => [...placeOfItem.values()].filter((other) => other < place).length
  return {
    places,
    within: Math.max(...places),
    inTurn: Math.max(...places.map((place) => place - before(place))),
    repairs: needed.length,
  }
}
