/**
 * A published troubleshooting or decision problem as the planner takes it. Hypotheses are numbered; what can
 * be done about them is left to the problem: fixes that cure, tests that tell, and ways to end.
 */
import { fixOutcomes } from '../../server/diagnosis/plan/outcomes.js'
import type { FixOrder } from '../../server/diagnosis/plan/fix-order.js'
import { fixOrder } from '../../server/diagnosis/plan/fix-order.js'
import type { PlanProblem, PlanState } from '../../server/diagnosis/plan/problem.js'
import { planProblem } from '../../server/diagnosis/plan/problem.js'

export interface Told {
  /** by hypothesis: P(the test says yes) */
  readonly chance: readonly number[]
  readonly cost: number
}

interface Cure {
  readonly cost: number
  /** hypothesis → chance */
  readonly cures: Readonly<Record<number, number>>
}

export interface Problem {
  readonly chances: readonly number[]
  readonly tests?: readonly Told[]
  readonly fixes?: readonly Cure[]
  /** by way to end: its cost under each hypothesis */
  readonly ends: readonly (readonly number[])[]
  /** hypotheses as sets of causes; one cause each unless told */
  readonly sets?: readonly (readonly number[])[]
}

export interface Planned {
  readonly problem: PlanProblem
  readonly start: PlanState
}

const plain = { hidesRunning: false, hidesPower: false, stops: false, hidesFindings: [], hidesFixes: [] }

export function planOf({ chances, tests = [], fixes = [], ends, sets }: Problem): Planned {
  const problem = planProblem({
    causes: chances.length,
    sets: sets ?? chances.map((_, h) => [h]),
    chance: tests.map((t) => Float64Array.from(t.chance)),
    running: tests.map(() => false),
    topic: tests.map(() => -1),
    effectOfYes: tests.map(() => plain),
    effectOfNo: tests.map(() => plain),
    steps: tests.map(({ cost }, f) => ({
      findings: [f],
      cost,
      setups: 0,
      line: 0,
      keeps: 0,
      power: false,
      order: f,
      barred: false,
    })),
    fixes: fixes.map(({ cost, cures }, f) => ({
      cost,
      setups: 0,
      cures: new Map(Object.entries(cures).map(([h, g]) => [Number(h), g])),
      outcome: -1,
      order: f,
      barred: false,
    })),
    setupCosts: [],
    ends: ends.map((costs) => Float64Array.from(costs)),
    stopCost: 0,
    truthFixed: false,
  })
  const total = chances.reduce((sum, p) => sum + p, 0)
  const start: PlanState = {
    weights: Float64Array.from(chances, (p) => p / total),
    settled: new Uint8Array(tests.length),
    tried: new Uint8Array(fixes.length),
    cured: new Uint8Array(chances.length),
    standing: 0,
    powerBarred: false,
  }
  return { problem, start }
}

/** A call that always helps, at one price; or none to be had, at a price nobody pays. */
export const callAt = (cost: number, hypotheses: number): number[][] => [Array<number>(hypotheses).fill(cost)]
export const noCall = (hypotheses: number): number[][] => callAt(1e6, hypotheses)

/** Fixing by the planner's sequence, looked at afresh after every failure: the fixes in order, and the cost. */
export function followed({ problem, start }: Planned): { order: number[]; cost: number } {
  const order: number[] = []
  let state = start
  let left = 1
  let cost = 0
  for (;;) {
    const { first, cost: rest }: FixOrder = fixOrder(problem, state)
    if (first < 0) return { order, cost: cost + left * rest }
    order.push(first)
    cost += left * problem.fixes[first]!.cost
    const [failed] = fixOutcomes(problem, state, first)
    if (!failed) return { order, cost }
    left *= failed.probability
    state = failed.state!
  }
}

/** The state after the tests with these answers, by Bayes' rule, and the chance of them. */
export function told(
  { problem, start }: Planned,
  answers: Readonly<Record<number, boolean>>,
): { chance: number; state: PlanState } {
  const settled = start.settled.slice()
  const weights = start.weights.slice()
  for (const [test, yes] of Object.entries(answers)) {
    const chance = problem.chance[Number(test)]!
    settled[Number(test)] = 1
    weights.forEach((w, h) => (weights[h] = w * (yes ? chance[h]! : 1 - chance[h]!)))
  }
  const chance = weights.reduce((sum, w) => sum + w, 0)
  return { chance, state: { ...start, settled, weights: weights.map((w) => w / chance) } }
}
