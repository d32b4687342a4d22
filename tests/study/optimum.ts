/** The exact optimum by dynamic programming over answers and fixes done, and the exact cost of a policy. */
import type { Action } from '../../server/diagnosis/plan/look-ahead.js'
import { fixOutcomes, outcomesOf } from '../../server/diagnosis/plan/outcomes.js'
import type { PlanProblem, PlanState } from '../../server/diagnosis/plan/problem.js'
import { endNow } from '../../server/diagnosis/plan/problem.js'

/** Expected cost of the best plan from a state, for problems without set-ups. Exponential: small ones only. */
export function optimum(problem: PlanProblem, start: PlanState): number {
  const questions = problem.steps.length
  const fixes = problem.fixes.length
  const memo = new Map<number, number>()
  // Unnormalised: weights of hypotheses times the probability of the answers so far.
  const value = (weights: Float64Array, answered: number[], done: number): number => {
    let key = done
    for (const a of answered) key = key * 3 + a
    const known = memo.get(key)
    let mass = 0
    let end = 0
    for (let h = 0; h < weights.length; h++) {
      mass += weights[h]!
      end += weights[h]! * problem.ends[0]![h]!
    }
    if (mass < 1e-15) return 0
    if (known !== undefined) return known
    let best = end
    for (let q = 0; q < questions; q++) {
      if (answered[q] !== 0) continue
      const yes = new Float64Array(weights.length)
      const no = new Float64Array(weights.length)
      for (let h = 0; h < weights.length; h++) {
        yes[h] = weights[h]! * problem.chance[q]![h]!
        no[h] = weights[h]! - yes[h]!
      }
      const next = [...answered]
      next[q] = 1
      let total = problem.steps[q]!.cost * mass
      if (total >= best) continue
      total += value(yes, next, done)
      if (total >= best) continue
      next[q] = 2
      total += value(no, next, done)
      if (total < best) best = total
    }
    for (let f = 0; f < fixes; f++) {
      if (done & (1 << f)) continue
      const now = done | (1 << f)
      const left = new Float64Array(weights.length)
      for (let h = 0; h < weights.length; h++) {
        if (problem.sets[h]!.some((c) => !(now & (1 << c)))) left[h] = weights[h]!
      }
      let total = problem.fixes[f]!.cost * mass
      if (total >= best) continue
      total += value(left, answered, now)
      if (total < best) best = total
    }
    memo.set(key, best)
    return best
  }
  // A question that is settled counts as answered, either way: its finding is in the weights.
  const answered = Array.from(start.settled, (settled) => (settled ? 1 : 0))
  const done = start.tried.reduce((mask, tried, f) => (tried ? mask | (1 << f) : mask), 0)
  return value(start.weights, answered, done)
}

/** Exact expected cost of following a policy from a state to the end. */
export function costOf(
  problem: PlanProblem,
  start: PlanState,
  policy: (state: PlanState) => Pick<Action, 'kind' | 'index'>,
): number {
  const cost = (state: PlanState): number => {
    const action = policy(state)
    if (action.kind === 'end') return endNow(problem, state.weights).cost
    if (action.kind === 'step') {
      const step = problem.steps[action.index]!
      return outcomesOf(problem, state, step, Infinity).reduce(
        (sum, o) => sum + o.probability * (o.state ? cost(o.state) : problem.stopCost),
        step.cost,
      )
    }
    return fixOutcomes(problem, state, action.index).reduce(
      (sum, o) => sum + o.probability * cost(o.state!),
      problem.fixes[action.index]!.cost,
    )
  }
  return cost(start)
}
