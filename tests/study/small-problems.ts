/** The planner against the exact optimum on small random rulebooks. */
import { endgame } from '../../server/diagnosis/plan/endgame.js'
import type { PlanProblem, PlanState } from '../../server/diagnosis/plan/problem.js'
import { costOf, optimum } from './optimum.js'
import { fixNow, fixedChart, informationPerCost, oneStepU, ours } from './policies.js'
import { randomRulebook } from './random-rulebook.js'
import type { Policy } from '../../server/simulation/course.js'

export const smallPolicies: Readonly<Record<string, Policy>> = {
  'fixed chart': fixedChart,
  'chance over cost, no questions': fixNow,
  'information per cost': informationPerCost,
  'one step ahead, U': oneStepU,
  'ours, endgame off': ours,
}

export interface SmallResult {
  readonly seed: number
  readonly optimum: number
  /** cost over the optimum, by policy */
  readonly over: Readonly<Record<string, number>>
  /** with the endgame on, at the first state that it takes: its value over the optimum there; null: never */
  readonly endgame: number | null
}

/** @param known the optimum, where it was worked out before: it takes most of the time and hangs on the seed alone */
export function solveSmall(seed: number, known?: number): SmallResult {
  const { problem, start } = randomRulebook(seed)
  const best = known ?? optimum(problem, start)
  const over: Record<string, number> = {}
  for (const [name, policy] of Object.entries(smallPolicies)) {
    over[name] = costOf(problem, start, (state) => policy(problem, state, 0)) / best
  }
  return { seed, optimum: best, over, endgame: endgameOver(problem, start) }
}

/** Follows our policy's likeliest course until the endgame applies, and compares it with the optimum there. */
function endgameOver(problem: PlanProblem, start: PlanState): number | null {
  let found: number | null = null
  costOf(problem, start, (state) => {
    if (found === null) {
      const solved = endgame(problem, state)
      if (solved) found = solved.value / optimum(problem, state)
    }
    return ours(problem, state, 0)
  })
  return found
}

/** Mean, 95th percentile (nearest rank) and largest. */
export function spread(values: readonly number[]): { mean: number; p95: number; max: number } {
  const sorted = [...values].sort((a, b) => a - b)
  return {
    mean: values.reduce((sum, v) => sum + v, 0) / values.length,
    p95: sorted[Math.ceil(sorted.length * 0.95) - 1]!,
    max: sorted[sorted.length - 1]!,
  }
}
