/**
 * The doubt about the *plan*: which fixes, or ending; telling apart two causes with one fix is worth nothing. Measured
 * by the Gini index, the chance that two draws of the plan differ (Breiman et al. 1984, ch. 4): like entropy it is
 * lowered by every telling finding, and it needs no logarithm.
 */
import { knownCost } from './fix-order.js'
import type { PlanProblem, PlanState } from './problem.js'

/** For the set-ups, fixes tried and cures of a state: each hypothesis' plan (as a class) and its cost. */
export interface PlanClasses {
  readonly cost: Float64Array
  readonly plan: Int32Array
  readonly count: number
  /** one number for each class, for who needs them for a moment: to make them anew takes longer than to use them */
  readonly scratch: Float64Array
}

/** Plan classes by state, for one look ahead. */
export type ClassCache = Map<string, PlanClasses>

export function planClasses(problem: PlanProblem, state: PlanState, cache: ClassCache): PlanClasses {
  const key = `${state.standing}|${state.tried.join('')}|${problem.truthFixed ? state.cured.join('') : ''}`
  let classes = cache.get(key)
  if (!classes) {
    const names = new Map<string, number>()
    const cost = new Float64Array(problem.sets.length)
    const plan = new Int32Array(problem.sets.length)
    for (let h = 0; h < cost.length; h++) {
      const best = knownCost(problem, state, h)
      cost[h] = best.cost
      let index = names.get(best.plan)
      if (index === undefined) names.set(best.plan, (index = names.size))
      plan[h] = index
    }
    const scratch = new Float64Array(names.size)
    cache.set(key, (classes = { cost, plan, count: names.size, scratch }))
  }
  return classes
}

/** The doubt of a state: mass of each plan class, its Gini index in [0, 1), and the mean cost were all known. */
export interface Doubt {
  readonly mass: Float64Array
  readonly spread: number
  readonly known: number
}

export function doubtOf(state: PlanState, classes: PlanClasses): Doubt {
  const mass = new Float64Array(classes.count)
  let known = 0
  for (let h = 0; h < state.weights.length; h++) {
    const w = state.weights[h]!
    mass[classes.plan[h]!]! += w
    known += w * classes.cost[h]!
  }
  let spread = 1
  for (let c = 0; c < mass.length; c++) spread -= mass[c]! * mass[c]!
  return { mass, spread, known }
}

/** By how much one finding, by itself, is expected to lower the doubt about the plan. */
export function findingTells(
  problem: PlanProblem,
  state: PlanState,
  classes: PlanClasses,
  { mass }: Doubt,
  f: number,
): number {
  const chance = problem.chance[f]!
  const { weights } = state
  const { plan, scratch: yes } = classes
  yes.fill(0)
  let p = 0
  for (let h = 0; h < weights.length; h++) {
    const w = weights[h]! * chance[h]!
    p += w
    yes[plan[h]!]! += w
  }
  if (p < 1e-6 || p > 1 - 1e-6) return 0
  let both = 0
  let yes2 = 0
  let no2 = 0
  for (let c = 0; c < mass.length; c++) {
    const all = mass[c]!
    const y = yes[c]!
    const n = all - y
    both += all * all
    yes2 += y * y
    no2 += n * n
  }
  return Math.max(0, yes2 / p + no2 / (1 - p) - both)
}
