import { expect, it } from 'vitest'
import { planProblem } from '../../server/diagnosis/plan/problem.js'
import type { PlanState } from '../../server/diagnosis/plan/problem.js'
import { addLosses } from './confusions.js'
import type { Losses } from './confusions.js'

// Causes 0, 1, 2; fix 0 (cost 10) cures 0, fix 1 (cost 6) cures 1, nothing cures 2: sending in costs 60.
const sets = [[0], [1], [2], [1, 2], [0, 1]]
const fixOf = (cost: number, cause: number) => ({
  cost,
  setups: 0,
  cures: new Map([[cause, 0.9]]),
  outcome: -1,
  order: 0,
  barred: false,
})
const problem = planProblem({
  causes: 3,
  sets,
  chance: [],
  running: [],
  topic: [],
  effectOfYes: [],
  effectOfNo: [],
  steps: [],
  fixes: [fixOf(10, 0), fixOf(6, 1)],
  setupCosts: [],
  ends: [Float64Array.from(sets, () => 60)],
  stopCost: 60,
  truthFixed: false,
})
const state: PlanState = {
  weights: Float64Array.of(0.5, 0.2, 0.1, 0.1, 0.1),
  settled: new Uint8Array(0),
  tried: new Uint8Array(2),
  cured: new Uint8Array(3),
  standing: 0,
  powerBarred: false,
}
const lossesOf = (choice: { kind: 'step' | 'fix' | 'end'; index: number }, cost: number) => {
  const losses: Losses = new Map()
  addLosses(losses, { choice, cost, problem, state })
  return Object.fromEntries(losses)
}

it('a fix is lost on whatever it cannot cure, in equal parts on causes that are there together', () => {
  // 10 · (0.2 for cause 1, 0.1 for cause 2, 0.1 shared), all taken for cause 0
  expect(lossesOf({ kind: 'fix', index: 0 }, 10)).toEqual({
    '1>0': expect.closeTo(2.5, 12),
    '2>0': expect.closeTo(1.5, 12),
  })
})

it('sending in is lost by how much less the repair here would have cost', () => {
  // taken for cause 2, which only a service mends: 0.5 · (60 − 10/0.9) for cause 0, 0.2 · (60 − 6/0.9) for cause 1;
  // both together cost 10/0.9 + 6/0.9. A tool with cause 2 in it went in rightly.
  const both = 0.1 * (60 - 16 / 0.9)
  expect(lossesOf({ kind: 'end', index: 0 }, 60)).toEqual({
    '0>2': expect.closeTo(0.5 * (60 - 10 / 0.9) + both / 2, 9),
    '1>2': expect.closeTo(0.2 * (60 - 6 / 0.9) + both / 2, 9),
  })
})

it('asking is never lost', () => {
  expect(lossesOf({ kind: 'step', index: 0 }, 5)).toEqual({})
})
