/**
 * U, the value of fixing now: fixes by chance of cure over cost, the sequence cut where ending is cheaper
 * (Kalagnanam & Henrion 1988; Heckerman, Breese & Rommelse 1995, with call service). An upper bound on the
 * optimal cost: it is the cost of a plan that can be carried out.
 */
import type { PlanProblem, PlanState } from './problem.js'
import { actionCost, endCostOf, endCosts, leastOf } from './problem.js'

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
  const { cured, saved } = problem.scratch
  const endLeft = endCosts(problem, state.weights)
  const ways = endLeft.length
  let best = leastOf(endLeft)
  const sequence = sequenceOf(problem, state)
  cureInOrder(problem, state, sequence)
  let cut = 0
  let spent = 0
  let left = 1
  for (let k = 0; k < sequence.length; k++) {
    // The test run after a fix puts the tool together again.
    spent += actionCost(problem, problem.fixes[sequence[k]!]!, k === 0 ? state.standing : 0) * left
    left -= cured[k]!
    for (let e = 0; e < ways; e++) endLeft[e]! -= saved[k * ways + e]!
    const total = spent + leastOf(endLeft)
    if (total < best - 1e-9) {
      best = total
      cut = k + 1
    }
  }
  return { cost: best, first: cut > 0 ? sequence[0]! : -1 }
}

/** Fixes with any gain, by gain over cost, best first. */
function sequenceOf(problem: PlanProblem, state: PlanState): number[] {
  const { gain, ratio } = problem.scratch
  gainOfFixes(problem, state)
  const sequence: number[] = []
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

/** By cause: the place in the sequence of the first fix that cures it, and that fix's chance to; 0 and 0 where none does. */
function findFirstCures(problem: PlanProblem, sequence: readonly number[]): void {
  const { causes, fixesOf, chanceOf, scratch } = problem
  const { position, place, chance } = scratch
  position.fill(sequence.length)
  for (let k = 0; k < sequence.length; k++) position[sequence[k]!] = k
  for (let c = 0; c < causes; c++) {
    let best = sequence.length
    let known = 0
    for (let k = fixesOf.at[c]!; k < fixesOf.at[c + 1]!; k++) {
      const at = position[fixesOf.items[k]!]!
      if (at >= best) continue
      best = at
      known = chanceOf[k]!
    }
    place[c] = known > 0 ? best : 0
    chance[c] = known
  }
}

/** What each place of the sequence cures (`cured`), and what ending would have cost there, for each way to end (`saved`). */
function cureInOrder(problem: PlanProblem, state: PlanState, sequence: readonly number[]): void {
  const { causesOf, ends, scratch } = problem
  const { place, chance, cured, saved } = scratch
  const ways = ends.length
  findFirstCures(problem, sequence)
  cured.fill(0, 0, sequence.length)
  saved.fill(0, 0, sequence.length * ways)
  for (let h = 0; h < state.weights.length; h++) {
    let p = state.weights[h]!
    if (p < leastWeight) continue
    let last = 0
    for (let i = causesOf.at[h]!; i < causesOf.at[h + 1]! && p > 0; i++) {
      const c = causesOf.items[i]!
      if (state.cured[c]) continue
      p *= chance[c]!
      if (place[c]! > last) last = place[c]!
    }
    if (p === 0) continue
    cured[last]! += p
    for (let e = 0; e < ways; e++) saved[last * ways + e]! += p * ends[e]![h]!
  }
}

/** By fix: chance to cure, a set of several causes counted in equal parts. Tried and barred ones 0. */
export function gains(problem: PlanProblem, state: PlanState): Float64Array {
  gainOfFixes(problem, state)
  return problem.scratch.gain.slice()
}

function gainOfFixes(problem: PlanProblem, state: PlanState): void {
  const { causes, causesOf, fixesOf, chanceOf, scratch } = problem
  const { gain, share } = scratch
  share.fill(0)
  gain.fill(0)
  for (let h = 0; h < state.weights.length; h++) {
    const w = state.weights[h]!
    if (w < leastWeight) continue
    const from = causesOf.at[h]!
    const to = causesOf.at[h + 1]!
    for (let i = from; i < to; i++) share[causesOf.items[i]!]! += w / (to - from)
  }
  for (let c = 0; c < causes; c++) {
    if (share[c] === 0 || state.cured[c]) continue
    for (let k = fixesOf.at[c]!; k < fixesOf.at[c + 1]!; k++) {
      const f = fixesOf.items[k]!
      if (!state.tried[f]) gain[f]! += share[c]! * chanceOf[k]!
    }
  }
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
