/**
 * V, the value of a state of knowledge: what it is expected to cost from here, the questions still to come
 * counted in. Between two bounds: what the right plan would cost were the causes known, and U, the cost of
 * fixing without asking. Asking buys the difference piece by piece, best offer first,
 *
 *     V = min over k of  Σ_{j≤k} c_j·r_{j−1}^½ + known + (U − known)·r_k ,   r_k = Π_{j≤k} (1 − y·b_j / B)
 *
 * with B the doubt about the *plan* (which fixes, or ending; telling apart two causes with one fix is worth
 * nothing), b_j and c_j what the j-th best step tells in this very state and what it costs. Doubt is measured
 * by the Gini index, the chance that two draws of the plan differ (Breiman et al. 1984, ch. 4): like entropy
 * it is lowered by every telling finding, and it needs no logarithm. When no telling step is left, V is U.
 */
import { isWitness } from './outcomes.js'
import type { PlanProblem, PlanState } from './problem.js'
import { actionCost, isOpen } from './problem.js'
import { fixOrder, knownCost } from './fix-order.js'

/** For the set-ups, fixes tried and cures of a state: each hypothesis' plan (as a class) and its cost. */
interface PlanClasses {
  readonly cost: Float64Array
  readonly plan: Int32Array
  readonly count: number
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
    cache.set(key, (classes = { cost, plan, count: names.size }))
  }
  return classes
}

/** The doubt of a state: mass of each plan class, its Gini index in [0, 1), and the mean cost were all known. */
interface Doubt {
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
function findingTells(
  problem: PlanProblem,
  state: PlanState,
  classes: PlanClasses,
  { mass }: Doubt,
  f: number,
): number {
  const chance = problem.chance[f]!
  const { weights } = state
  const yes = new Float64Array(classes.count)
  let p = 0
  for (let h = 0; h < weights.length; h++) {
    const w = weights[h]! * chance[h]!
    p += w
    yes[classes.plan[h]!]! += w
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

/** By how much a step lowers the doubt at most: the sum over its open findings, never more than there is. */
export function stepTells(
  problem: PlanProblem,
  state: PlanState,
  classes: PlanClasses,
  doubt: Doubt,
  s: number,
): number {
  let tells = 0
  const asked = problem.steps[s]!.findings.filter((f) => !state.settled[f])
  for (const f of asked)
    if (isWitness(problem, f, asked)) tells += findingTells(problem, state, classes, doubt, f)
  return Math.min(tells, doubt.spread)
}

/**
 * How the value of a state was fitted, by least squares, to what 400 simulated cases went on to cost under
 * one-step look-ahead with U (once, 2026-11-25; the fit itself is not kept here). No units. `overlap`: above 1,
 * since findings together tell more about the plan than the sum of what each tells alone; `stays`: how soon
 * the paying for questions ends as doubt goes.
 */
const fitted = { overlap: 2, stays: 0.5 }

/** @param scan steps that may be bought */
export function stateValue(
  problem: PlanProblem,
  state: PlanState,
  scan: readonly number[],
  cache: ClassCache,
): number {
  const upper = fixOrder(problem, state).cost
  const classes = planClasses(problem, state, cache)
  const doubt = doubtOf(state, classes)
  if (doubt.spread < 1e-4 || upper - doubt.known < 1e-3) return upper
  const offers: { cost: number; share: number }[] = []
  for (const s of scan) {
    const step = problem.steps[s]!
    if (!isOpen(state, step)) continue
    const share = stepTells(problem, state, classes, doubt, s) / doubt.spread
    if (share > 1e-3) offers.push({ cost: actionCost(problem, step, state.standing), share })
  }
  offers.sort((a, b) => a.cost / a.share - b.cost / b.share)
  const gap = upper - doubt.known
  let best = upper
  let spent = 0
  let left = 1
  for (const offer of offers) {
    spent += offer.cost * Math.pow(left, fitted.stays)
    left *= Math.max(0, 1 - fitted.overlap * offer.share)
    best = Math.min(best, spent + doubt.known + gap * left)
  }
  return best
}
