/**
 * U, the value of fixing now: fixes by chance of cure over cost, the sequence cut where ending is cheaper
 * (Kalagnanam & Henrion 1988; Heckerman, Breese & Rommelse 1995, with call service). An upper bound on the
 * optimal cost: it is the cost of a plan that can be carried out.
 */
import type { PlanProblem, PlanState } from './problem.js'
import { actionCost, endCostOf, endNow } from './problem.js'

export interface FixOrder {
  /** expected total cost of the sequence, ending included; money */
  readonly cost: number
  /** the first fix of the sequence, or -1 where ending now is best */
  readonly first: number
}

/** Hypotheses with a share below this are passed over: they change no order worth the time. */
const leastWeight = 1e-5
/** Fixes whose chance of a cure is below this are left out of the sequence. */
const leastGain = 1e-5

/** Greedy sequence, cut where ending is cheaper: several causes count for each fix in equal parts; a set is cured by the last one needed. */
export function fixOrder(problem: PlanProblem, state: PlanState): FixOrder {
  const end = endNow(problem, state.weights)
  const gain = gains(problem, state)
  const sequence = sequenceOf(problem, state, gain)
  if (sequence.length === 0) return { cost: end.cost, first: -1 }
  const ways = problem.ends.length
  const { cured, saved } = curedInOrder(problem, state, sequence)
  const endLeft = problem.ends.map((costs) => dot(state.weights, costs))
  let best = end.cost
  let cut = 0
  let spent = 0
  let left = 1
  for (let k = 0; k < sequence.length; k++) {
    // The test run after a fix puts the tool together again.
    spent += actionCost(problem, problem.fixes[sequence[k]!]!, k === 0 ? state.standing : 0) * left
    left -= cured[k]!
    let least = Infinity
    for (let e = 0; e < ways; e++) {
      endLeft[e]! -= saved[k * ways + e]!
      if (endLeft[e]! < least) least = endLeft[e]!
    }
    if (spent + least < best - 1e-9) {
      best = spent + least
      cut = k + 1
    }
  }
  return { cost: best, first: cut > 0 ? sequence[0]! : -1 }
}

function dot(weights: Float64Array, costs: Float64Array): number {
  let sum = 0
  for (let h = 0; h < weights.length; h++) sum += weights[h]! * costs[h]!
  return sum
}

/** Fixes with any gain, by gain over cost, best first. */
function sequenceOf(problem: PlanProblem, state: PlanState, gain: Float64Array): number[] {
  const sequence: number[] = []
  const ratio = new Float64Array(gain.length)
  for (let f = 0; f < gain.length; f++) {
    if (gain[f]! < leastGain) continue
    ratio[f] = gain[f]! / Math.max(actionCost(problem, problem.fixes[f]!, state.standing), 1e-9)
    sequence.push(f)
    let k = sequence.length - 1
    for (; k > 0 && ratio[sequence[k - 1]!]! < ratio[f]!; k--) sequence[k] = sequence[k - 1]!
    sequence[k] = f
  }
  return sequence
}

/** What each place of the sequence cures, and what ending would have cost there, for each way to end. */
function curedInOrder(problem: PlanProblem, state: PlanState, sequence: readonly number[]) {
  const { causesOf, fixesOf, chanceOf, ends } = problem
  const ways = ends.length
  const position = new Int32Array(problem.fixes.length).fill(-1)
  for (let k = 0; k < sequence.length; k++) position[sequence[k]!] = k
  const cured = new Float64Array(sequence.length)
  const saved = new Float64Array(sequence.length * ways)
  for (let h = 0; h < state.weights.length; h++) {
    const w = state.weights[h]!
    if (w < leastWeight) continue
    let last = 0
    let chance = w
    for (let i = causesOf.at[h]!; i < causesOf.at[h + 1]!; i++) {
      const c = causesOf.items[i]!
      if (state.cured[c]) continue
      let best = -1
      let g = 0
      for (let k = fixesOf.at[c]!; k < fixesOf.at[c + 1]!; k++) {
        const place = position[fixesOf.items[k]!]!
        if (place >= 0 && (best < 0 || place < best)) {
          best = place
          g = chanceOf[k]!
        }
      }
      chance *= g
      if (best > last) last = best
    }
    if (chance === 0) continue
    cured[last]! += chance
    for (let e = 0; e < ways; e++) saved[last * ways + e]! += chance * ends[e]![h]!
  }
  return { cured, saved }
}

/** By fix: chance to cure, a set of several causes counted in equal parts. Tried and barred ones 0. */
export function gains(problem: PlanProblem, state: PlanState): Float64Array {
  const { causesOf, fixesOf, chanceOf } = problem
  const gain = new Float64Array(problem.fixes.length)
  for (let h = 0; h < state.weights.length; h++) {
    const w = state.weights[h]!
    if (w < leastWeight) continue
    const from = causesOf.at[h]!
    const to = causesOf.at[h + 1]!
    const share = w / (to - from)
    for (let i = from; i < to; i++) {
      const c = causesOf.items[i]!
      if (state.cured[c]) continue
      for (let k = fixesOf.at[c]!; k < fixesOf.at[c + 1]!; k++)
        gain[fixesOf.items[k]!]! += share * chanceOf[k]!
    }
  }
  for (let f = 0; f < gain.length; f++) if (state.tried[f]) gain[f] = 0
  return gain
}

/** Cheapest way to be rid of a known set of causes: its fixes, or ending. The clairvoyant's cost. */
export function knownCost(problem: PlanProblem, state: PlanState, h: number): { cost: number; plan: string } {
  let cost = 0
  let standing = state.standing
  const used: number[] = []
  const end = endCostOf(problem, h)
  for (const c of problem.sets[h]!) {
    if (state.cured[c] || used.some((f) => problem.fixes[f]!.cures.has(c))) continue
    let best = Infinity
    let bestFix = -1
    for (let k = problem.fixesOf.at[c]!; k < problem.fixesOf.at[c + 1]!; k++) {
      const f = problem.fixesOf.items[k]!
      if (state.tried[f]) continue
      const price = actionCost(problem, problem.fixes[f]!, standing) / problem.chanceOf[k]!
      if (price < best) {
        best = price
        bestFix = f
      }
    }
    if (bestFix < 0) return { cost: end, plan: 'end' }
    cost += best
    used.push(bestFix)
    standing = 0
  }
  return cost < end ? { cost, plan: used.sort((a, b) => a - b).join('+') } : { cost: end, plan: 'end' }
}
