/**
 * Proves that the exact endgame buys a test exactly when the books do. Ends are the decisions; payoffs become
 * costs by taking them from a sum that no payoff exceeds.
 */
import { describe, expect, it } from 'vitest'
import { endgame } from '../../server/diagnosis/plan/endgame.js'
import { endNow, planProblem } from '../../server/diagnosis/plan/problem.js'
import type { Planned } from './plan-of.js'
import { planOf, told } from './plan-of.js'

// Exercise of Russell & Norvig's book, after Pearl 1988: price 1500, value 2000, repairs 700
describe('the used car', () => {
  const most = 500
  const car = (testCost: number): Planned =>
    planOf({
      chances: [0.7, 0.3], // good, bad
      tests: [{ chance: [0.8, 0.35], cost: testCost }],
      ends: [
        [most - 500, most - (500 - 700)], // buy
        [most, most], // leave it
      ],
    })

  it('is worth 290 untested', () => {
    const { problem, start } = car(50)
    expect(endNow(problem, start.weights)).toEqual({ cost: expect.closeTo(most - 290, 9), end: 0 })
  })
  it('passes with .665; good .842105 after a pass, .417910 after a failure', () => {
    const plan = car(50)
    const pass = told(plan, { 0: true })
    const fail = told(plan, { 0: false })
    expect(pass.chance).toBeCloseTo(0.665, 12)
    expect(pass.state.weights[0]).toBeCloseTo(0.842105, 6)
    expect(fail.state.weights[0]).toBeCloseTo(0.41791, 6)
    expect(most - endNow(plan.problem, pass.state.weights).cost).toBeCloseTo(389.4737, 4)
    expect(most - endNow(plan.problem, fail.state.weights).cost).toBeCloseTo(92.5373, 4)
  })
  it('is bought whatever the test says, so the test is worth nothing, at 50 and at 5 cents', () => {
    for (const cost of [50, 0.05]) {
      const { problem, start } = car(cost)
      const best = endgame(problem, start)!
      expect(best).toMatchObject({ kind: 'end', index: 0 })
      expect(most - best.value).toBeCloseTo(290, 9)
    }
  })
})

// Raiffa, Decision Analysis, 1968: dry, wet, soaking; closed, open or diffuse structure
describe('the oil wildcatter', () => {
  const most = 200
  const payoffs = [-70, 50, 200]
  const closed = [0.1, 0.3, 0.5]
  const open = [0.3, 0.4, 0.4]
  const plain = { hidesRunning: false, hidesPower: false, stops: false, hidesFindings: [], hidesFixes: [] }

  /** One step with two findings: closed, and (seen only if it is not) open. */
  function wildcatter(cost: number): Planned {
    const ends = [payoffs.map((p) => most - p), [most, most, most]] // drill, leave it
    const { problem, start } = planOf({
      chances: [0.5, 0.3, 0.2],
      tests: [
        { chance: closed, cost },
        { chance: open.map((p, h) => p / (1 - closed[h]!)), cost },
      ],
      ends,
    })
    return {
      start,
      problem: planProblem({
        ...problem,
        steps: [{ ...problem.steps[0]!, findings: [0, 1] }],
        running: [false, true],
        effectOfYes: [{ ...plain, hidesRunning: true }, plain],
      }),
    }
  }
  const best = (cost: number) => {
    const { problem, start } = wildcatter(cost)
    return endgame(problem, start)!
  }

  it('earns 20 without the test', () => {
    const { problem, start } = wildcatter(10)
    expect(most - endNow(problem, start.weights).cost).toBeCloseTo(20, 10)
  })
  it('tests at 10, and earns 22.5', () => {
    expect(best(10).kind).toBe('step')
    expect(most - best(10).value).toBeCloseTo(22.5, 10)
  })
  it('would earn 32.5 if the test were free: the sample is worth 12.5', () => {
    expect(most - best(0).value).toBeCloseTo(32.5, 10)
    expect(best(12.4).kind).toBe('step')
    expect(best(12.6)).toMatchObject({ kind: 'end', index: 0 })
  })
  it('drills on a closed or open structure, 87.5 and 32.8571, not on a diffuse one', () => {
    const plan = wildcatter(10)
    const after = [
      told(plan, { 0: true }),
      told(plan, { 0: false, 1: true }),
      told(plan, { 0: false, 1: false }),
    ]
    const drilled = after.map(({ state }) => state.weights.reduce((sum, w, h) => sum + w * payoffs[h]!, 0))
    expect(after.map(({ chance }) => chance.toFixed(2))).toEqual(['0.24', '0.35', '0.41'])
    expect(drilled[0]).toBeCloseTo(87.5, 10)
    expect(drilled[1]).toBeCloseTo(32.8571, 4)
    expect(drilled[2]).toBeCloseTo(-30.4878, 4)
    expect(after.map(({ state }) => endNow(plan.problem, state.weights).end)).toEqual([0, 0, 1])
  })
  it('knowing all would be worth 35', () => {
    const { problem, start } = planOf({
      chances: [0.5, 0.3, 0.2],
      tests: [
        { chance: [1, 0, 0], cost: 0 },
        { chance: [0, 1, 0], cost: 0 },
      ],
      ends: [payoffs.map((p) => most - p), [most, most, most]],
    })
    expect(most - endgame(problem, start)!.value - 20).toBeCloseTo(35, 10)
  })
})
