/** The policies that the study compares, all over the same grouped steps, set-ups and costs. */
import { fixOrder } from '../../server/diagnosis/plan/fix-order.js'
import { offersOf, rankActions } from '../../server/diagnosis/plan/look-ahead.js'
import type { PlanProblem, PlanState } from '../../server/diagnosis/plan/problem.js'
import { isOpen } from '../../server/diagnosis/plan/problem.js'
import { stateValue } from '../../server/diagnosis/plan/state-value.js'
import { decide } from '../../server/diagnosis/plan/choice.js'
import type { Reach } from '../../server/diagnosis/plan/reach.js'
import { reach } from '../../server/diagnosis/plan/reach.js'
import type { Choice, Policy } from '../../server/simulation/course.js'

/** The trade's chart: every step in its order; as soon as one cause is likelier than not, its fix. */
export const fixedChart: Policy = (problem, state) => {
  const share = new Float64Array(problem.causes)
  state.weights.forEach((w, h) => problem.sets[h]!.forEach((c) => state.cured[c] || (share[c]! += w)))
  const leading = share.indexOf(Math.max(...share))
  const fix = problem.fixes.findIndex((f, k) => !f.barred && !state.tried[k] && f.cures.has(leading))
  const mend = fix >= 0 ? ({ kind: 'fix', index: fix } as const) : ({ kind: 'end', index: 0 } as const)
  if (share[leading]! > 0.5) return mend
  const step = problem.steps.findIndex((s) => isOpen(state, s))
  return step >= 0 ? { kind: 'step', index: step } : mend
}

/** No questions: fixes by what usually is wrong, chance over cost, until sending in is cheaper. */
export function byPrior(priors: readonly number[]): Policy {
  return (problem, state) => {
    const spoken = (cause: number) => problem.fixes.some((f, k) => state.tried[k] === 1 && f.cures.has(cause))
    const weights = Float64Array.from(problem.sets, (set) =>
      set.length === 1 && !spoken(set[0]!) ? priors[set[0]!]! : 0,
    )
    const total = weights.reduce((sum, w) => sum + w, 0)
    if (total === 0) return { kind: 'end', index: 0 }
    weights.forEach((w, h) => (weights[h] = w / total))
    return fixNow(problem, { ...state, weights })
  }
}

/** No questions: fixes by chance over cost, given what is known. */
export const fixNow = (problem: PlanProblem, state: PlanState): Choice => {
  const { first } = fixOrder(problem, state)
  return first < 0 ? { kind: 'end', index: 0 } : { kind: 'fix', index: first }
}

/** Best information per cost; stops asking when V says that fixing or sending in now is no dearer. */
export const informationPerCost: Policy = (problem, state) => {
  const cache = new Map()
  const open = offersOf(problem, state, cache)
  const scan = open.slice(0, 8).map((o) => o.s)
  const best = open[0]
  if (best && stateValue(problem, state, scan, cache) < fixOrder(problem, state).cost - 1e-9) {
    return { kind: 'step', index: best.s }
  }
  return fixNow(problem, state)
}

/** Look-ahead with this reach. */
const lookAhead =
  (far: Reach): Policy =>
  (problem, state) =>
    rankActions(problem, state, far)[0]!

/** One action ahead, leaves valued by U alone. */
export const oneStepU = lookAhead({
  levels: [{ steps: 60, deeper: 0, cells: 16 }],
  rare: 0,
  scan: 0,
  pairs: 0,
})

/** The product's own look-ahead, its endgame switched off. */
export const ours = lookAhead(reach)

/** What the product does, its endings taken when they are offered. */
export const asTheProduct: Policy = (problem, state, dropped) => {
  const { best, outlook, offers } = decide(problem, state, dropped)
  return offers ? { kind: 'end', index: outlook.end } : best.action
}
