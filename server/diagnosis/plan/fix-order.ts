/**
 * U, the value of fixing now: fixes by chance of cure over cost, the sequence cut where ending is cheaper
 * (Kalagnanam & Henrion 1988; Heckerman, Breese & Rommelse 1995, with call service). An upper bound on the
 * optimal cost: it is the cost of a plan that can be carried out.
 */
import type { PlanProblem, PlanState } from './problem.js'
import { actionCost, endCostOf, endNow } from './problem.js'

export interface FixOrder {
  readonly cost: number
  /** the first fix of the sequence, or -1 where ending now is best */
  readonly first: number
}

/** Greedy sequence: several causes count for each fix in equal parts; a set is cured by the last one needed. */
export function fixOrder(problem: PlanProblem, state: PlanState): FixOrder {
  const { weights } = state
  const end = endNow(problem, weights)
  const gain = gains(problem, state)
  const sequence: number[] = []
  const ratio = new Float64Array(gain.length)
  for (let f = 0; f < gain.length; f++) {
    if (gain[f]! < 1e-6) continue
    ratio[f] = gain[f]! / Math.max(actionCost(problem, problem.fixes[f]!, state.standing), 1e-9)
    let k = sequence.length
    while (k > 0 && ratio[sequence[k - 1]!]! < ratio[f]!) k--
    sequence.splice(k, 0, f)
  }
  if (sequence.length === 0) return { cost: end.cost, first: -1 }
  const position = new Int32Array(gain.length).fill(-1)
  sequence.forEach((f, k) => (position[f] = k))

  // What each place in the sequence cures, and what ending it then saves, for each way to end.
  const ways = problem.ends.length
  const curedAt = new Float64Array(sequence.length)
  const savedAt = new Float64Array(sequence.length * ways)
  for (let h = 0; h < weights.length; h++) {
    const w = weights[h]!
    if (w < 1e-7) continue
    let last = 0
    let chance = w
    const causes = problem.sets[h]!
    for (let i = 0; i < causes.length; i++) {
      const c = causes[i]!
      if (state.cured[c]) continue
      const fixes = problem.fixesOf[c]!
      let best = -1
      let g = 0
      for (let k = 0; k < fixes.length; k++) {
        const p = position[fixes[k]!]!
        if (p >= 0 && (best < 0 || p < best)) {
          best = p
          g = problem.chancesOf[c]![k]!
        }
      }
      chance *= g
      if (best > last) last = best
    }
    if (chance === 0) continue
    curedAt[last]! += chance
    for (let e = 0; e < ways; e++) savedAt[last * ways + e]! += chance * problem.ends[e]![h]!
  }
  const endLeft = problem.ends.map((costs) => {
    let sum = 0
    for (let h = 0; h < weights.length; h++) sum += weights[h]! * costs[h]!
    return sum
  })
  let best = end.cost
  let cut = 0
  let spent = 0
  let left = 1
  for (let k = 0; k < sequence.length; k++) {
    // The test run after a fix puts the tool together again.
    spent += actionCost(problem, problem.fixes[sequence[k]!]!, k === 0 ? state.standing : 0) * left
    left -= curedAt[k]!
    let least = Infinity
    for (let e = 0; e < ways; e++) {
      endLeft[e]! -= savedAt[k * ways + e]!
      if (endLeft[e]! < least) least = endLeft[e]!
    }
    if (spent + least < best - 1e-9) {
      best = spent + least
      cut = k + 1
    }
  }
  return { cost: best, first: cut > 0 ? sequence[0]! : -1 }
}

/** By fix: chance to cure, a set of several causes counted in equal parts. Tried and barred ones 0. */
export function gains(problem: PlanProblem, state: PlanState): Float64Array {
  const gain = new Float64Array(problem.fixes.length)
  for (let h = 0; h < state.weights.length; h++) {
    const w = state.weights[h]!
    if (w < 1e-7) continue
    const causes = problem.sets[h]!
    const share = w / causes.length
    for (let i = 0; i < causes.length; i++) {
      const c = causes[i]!
      if (state.cured[c]) continue
      const fixes = problem.fixesOf[c]!
      const chances = problem.chancesOf[c]!
      for (let k = 0; k < fixes.length; k++) gain[fixes[k]!]! += share * chances[k]!
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
    problem.fixesOf[c]!.forEach((f, k) => {
      if (state.tried[f]) return
      const price = actionCost(problem, problem.fixes[f]!, standing) / problem.chancesOf[c]![k]!
      if (price < best) {
        best = price
        bestFix = f
      }
    })
    if (bestFix < 0) return { cost: end, plan: 'end' }
    cost += best
    used.push(bestFix)
    standing = 0
  }
  return cost < end ? { cost, plan: used.sort((a, b) => a - b).join('+') } : { cost: end, plan: 'end' }
}
