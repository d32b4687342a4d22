/**
 * V, the value of a state of knowledge: what it is expected to cost from here, the questions still to come
 * counted in. Between two bounds: what the right plan would cost were the causes known, and U, the cost of
 * fixing without asking. Asking buys the difference piece by piece, best offer first,
 *
 *     V = min over k of  Σ_{j≤k} c_j·r_{j−1}^½ + known + (U − known)·r_k ,   r_k = Π_{j≤k} (1 − y·b_j / B)
 *
 * with B the doubt about the plan (doubt.ts), b_j and c_j what the j-th best step tells in this very state and what it
 * costs. When no telling step is left, V is U.
 */
import { asShown } from './as-shown.js'
import type { ClassCache } from './doubt.js'
import { doubtOf, planClasses } from './doubt.js'
import type { PlanProblem, PlanState } from './problem.js'
import { actionCost, isOpen } from './problem.js'
import { fixOrder } from './fix-order.js'

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
    const shown = asShown(problem, state, classes, doubt, step)
    const share = shown.tells / doubt.spread
    if (share > 1e-3) offers.push({ cost: actionCost(problem, shown.step, state.standing), share })
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
