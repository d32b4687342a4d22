/**
 * Proves that the endgame is exact: the same expected cost as following every plan to its end (own slow
 * implementation beside, slow-plan.ts), on random small problems with set-ups, steps of several findings,
 * fixes that may fail, dangers, and what a finding hides. Also that U and the look-ahead never undercut it.
 */
import { describe, expect, it } from 'vitest'
import { endgame } from '../../server/diagnosis/plan/endgame.js'
import { fixOrder } from '../../server/diagnosis/plan/fix-order.js'
import type { FindingEffect, PlanProblem, PlanState } from '../../server/diagnosis/plan/problem.js'
import { planProblem } from '../../server/diagnosis/plan/problem.js'
import { generator } from '../study/random-rulebook.js'
import { leastCost } from './slow-plan.js'

const nothing: FindingEffect = {
  hidesRunning: false,
  hidesPower: false,
  stops: false,
  hidesFindings: [],
  hidesFixes: [],
}

function randomProblem(seed: number): { problem: PlanProblem; start: PlanState } {
  const random = generator(1 + seed * 104_729)
  for (let k = 0; k < 12; k++) random()
  const between = (low: number, high: number) => low + (high - low) * random()
  const often = (p: number) => random() < p
  const causes = 2 + Math.floor(random() * 2)
  const findings = 2 + Math.floor(random() * 2)
  const sets = Array.from({ length: (1 << causes) - 1 }, (_, k) =>
    [...Array(causes).keys()].filter((c) => (k + 1) & (1 << c)),
  )
  const list = Array.from({ length: findings }, (_, f) => f)
  // now and then two findings are asked in one step
  const asked = findings === 3 && often(0.5) ? [[0, 1], [2]] : list.map((f) => [f])
  const setupCosts = [between(0.5, 4), between(0.5, 4)]
  const problem = planProblem({
    causes,
    sets,
    chance: list.map(() => {
      const leak = between(0.01, 0.2)
      const strengths = Array.from({ length: causes }, () => (often(0.6) ? between(0.1, 0.95) : 0))
      return Float64Array.from(sets, (s) => 1 - s.reduce((q, c) => q * (1 - strengths[c]!), 1 - leak))
    }),
    running: list.map(() => often(0.3)),
    // now and then two findings are sides of one number
    topic: findings === 3 && often(0.3) ? [0, 0, -1] : list.map(() => -1),
    effectOfYes: list.map((f) => ({
      hidesRunning: often(0.2),
      hidesPower: often(0.2),
      stops: often(0.15),
      hidesFindings: often(0.15) ? [(f + 1) % findings] : [],
      hidesFixes: often(0.15) ? [f % causes] : [],
    })),
    effectOfNo: list.map(() => ({ ...nothing, stops: often(0.08), hidesRunning: often(0.08) })),
    steps: asked.map((fs, order) => {
      const power = often(0.3)
      return {
        findings: fs,
        cost: between(0.2, 5),
        setups: Math.floor(random() * 4),
        line: 0,
        keeps: power ? 0 : 3,
        power,
        order,
        barred: often(0.05),
      }
    }),
    fixes: Array.from({ length: causes + (often(0.3) ? 1 : 0) }, (_, order) => ({
      cost: between(2, 20),
      setups: Math.floor(random() * 4),
      cures: new Map([
        [order % causes, between(0.5, 0.98)],
        ...(often(0.3) ? [[(order + 1) % causes, between(0.3, 0.9)] as const] : []),
      ]),
      outcome: often(0.15) ? Math.floor(random() * findings) : -1,
      order,
      barred: often(0.05),
    })),
    setupCosts,
    // one cause cannot be mended by the service
    ends: [Float64Array.from(sets, (s) => (s.includes(0) ? 70 : 40)), Float64Array.from(sets, () => 55)],
    stopCost: 40,
    truthFixed: false,
  })
  const weights = Float64Array.from(sets, () => random() ** 3)
  const mass = weights.reduce((sum, w) => sum + w, 0)
  const start: PlanState = {
    weights: weights.map((w) => w / mass),
    settled: new Uint8Array(findings),
    tried: new Uint8Array(problem.fixes.length),
    cured: new Uint8Array(causes),
    standing: Math.floor(random() * 4),
    powerBarred: false,
  }
  return { problem, start }
}

describe('the endgame within its bound', () => {
  it('gives the same value or none', () => {
    let given = 0
    for (let k = 0; k < 60; k++) {
      const { problem, start } = randomProblem(k)
      const bounded = endgame(problem, start)
      if (!bounded) continue
      given++
      expect(bounded.value).toBeCloseTo(endgame(problem, start, Infinity)!.value, 9)
    }
    expect(given).toBeGreaterThan(20)
    expect(given).toBeLessThan(60)
  })
})

describe('the endgame against every plan followed to its end', () => {
  it.each(Array.from({ length: 60 }, (_, k) => k))('random problem %i', (k) => {
    const { problem, start } = randomProblem(k)
    const best = endgame(problem, start, Infinity)
    expect(best).not.toBeNull()
    const expected = leastCost(problem, start)
    expect(Math.abs(best!.value - expected)).toBeLessThan(1e-9 * expected)
    // U is the cost of a plan that can be carried out, so nothing best is dearer
    expect(fixOrder(problem, start).cost).toBeGreaterThanOrEqual(expected - 1e-9)
  })
})

describe('what cannot be followed to the end', () => {
  it('is said to be too much, not guessed', () => {
    const { problem, start } = randomProblem(3)
    const steps = Array.from({ length: 9 }, (_, order) => ({
      ...problem.steps[0]!,
      findings: [order],
      order,
      barred: false,
    }))
    const many = planProblem({
      ...problem,
      steps,
      chance: steps.map((_, f) => Float64Array.from(problem.sets, (_, h) => (h + f + 1) / 20)),
      running: steps.map(() => false),
      topic: steps.map(() => -1),
      effectOfYes: steps.map(() => nothing),
      effectOfNo: steps.map(() => nothing),
    })
    expect(endgame(many, { ...start, settled: new Uint8Array(9) })).toBeNull()
  })
})
