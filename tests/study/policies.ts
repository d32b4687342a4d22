/** The policies that the study compares, all over the same grouped steps, set-ups and costs. */
import { fixOrder } from '../../server/diagnosis/plan/fix-order.js'
import type { Reach } from '../../server/diagnosis/plan/look-ahead.js'
import { offersOf, rankActions } from '../../server/diagnosis/plan/look-ahead.js'
import { isOpen } from '../../server/diagnosis/plan/problem.js'
import { stateValue } from '../../server/diagnosis/plan/state-value.js'
import type { Policy } from './simulate.js'

/** The trade's chart: every step in its order; as soon as one cause is likelier than not, its fix. */
export const fixedChart: Policy = (problem, state) => {
  const share = new Float64Array(problem.causes)
  state.weights.forEach((w, h) => problem.sets[h]!.forEach((c) => (share[c]! += w)))
  const leading = share.indexOf(Math.max(...share))
  const fix = problem.fixes.findIndex((f, k) => !f.barred && !state.tried[k] && f.cures.has(leading))
  if (share[leading]! > 0.5) return fix >= 0 ? { kind: 'fix', index: fix } : { kind: 'end', index: 0 }
  const step = problem.steps.findIndex((s) => isOpen(state, s))
  if (step >= 0) return { kind: 'step', index: step }
  return fix >= 0 ? { kind: 'fix', index: fix } : { kind: 'end', index: 0 }
}

/** No questions: fixes by what usually is wrong, chance over cost, until sending in is cheaper. */
export function byPrior(priors: readonly number[]): Policy {
  return (problem, state) => {
    const weights = Float64Array.from(problem.sets, (set) =>
      set.length === 1 && !isCured(set[0]!) ? priors[set[0]!]! : 0,
    )
    function isCured(cause: number): boolean {
      return problem.fixes.some((f, k) => state.tried[k] === 1 && f.cures.has(cause))
    }
    const total = weights.reduce((sum, w) => sum + w, 0)
    if (total === 0) return { kind: 'end', index: 0 }
    weights.forEach((w, h) => (weights[h] = w / total))
    const { first } = fixOrder(problem, { ...state, weights })
    return first < 0 ? { kind: 'end', index: 0 } : { kind: 'fix', index: first }
  }
}

/** Best information per cost; stops asking when V says that fixing or sending in now is no dearer. */
export const informationPerCost: Policy = (problem, state) => {
  const cache = new Map()
  const open = offersOf(problem, state, cache)
  const now = fixOrder(problem, state)
  const scan = open.slice(0, 8).map((o) => o.s)
  if (open.length > 0 && stateValue(problem, state, scan, cache) < now.cost - 1e-9) {
    return { kind: 'step', index: open[0]!.s }
  }
  return now.first < 0 ? { kind: 'end', index: 0 } : { kind: 'fix', index: now.first }
}

/** Look-ahead with this reach. */
export const lookAhead =
  (reach: Reach): Policy =>
  (problem, state) =>
    rankActions(problem, state, reach)[0]!
