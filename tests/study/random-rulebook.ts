/**
 * Small random troubleshooting problems whose optimum can be computed: 5 to 7 causes, questions and fixes,
 * several faults at once. A finding's truth is fixed at the start, a fix cures one cause for certain.
 */
import type { PlanProblem, PlanState } from '../../server/diagnosis/plan/problem.js'
import { planProblem } from '../../server/diagnosis/plan/problem.js'

/** Minimal standard generator (ISO/IEC 14882, minstd_rand0): x ← 16807·x mod 2³¹−1. */
export function generator(seed: number): () => number {
  let x = seed
  return () => (x = (16807 * x) % 2147483647) / 2147483647
}

const nothing = { hidesRunning: false, hidesPower: false, stops: false, hidesFindings: [], hidesFixes: [] }

export function randomRulebook(seed: number): { problem: PlanProblem; start: PlanState } {
  const random = generator(seed)
  for (let k = 0; k < 10; k++) random()
  const between = (low: number, high: number) => low + (high - low) * random()
  const count = () => 5 + Math.floor(random() * 3)
  const causes = count()
  const questions = count()
  const fixes = causes // a fix cures one cause, each cause has one
  const priors = Array.from({ length: causes }, () => between(0.03, 0.3))
  const sets: number[][] = []
  for (let mask = 1; mask < 1 << causes; mask++) {
    sets.push([...Array(causes).keys()].filter((c) => mask & (1 << c)))
  }
  const weights = Float64Array.from(sets, (set) =>
    priors.reduce((w, p, c) => w * (set.includes(c) ? p : 1 - p), 1),
  )
  const total = weights.reduce((sum, w) => sum + w, 0)
  weights.forEach((w, h) => (weights[h] = w / total))
  const chance = Array.from({ length: questions }, () => {
    const leak = between(0.01, 0.15)
    const strengths = priors.map(() => (random() < 0.45 ? between(0.2, 0.95) : 0))
    return Float64Array.from(sets, (set) => 1 - set.reduce((q, c) => q * (1 - strengths[c]!), 1 - leak))
  })
  const problem = planProblem({
    causes,
    sets,
    chance,
    running: chance.map(() => false),
    topic: chance.map(() => -1),
    effectOfYes: chance.map(() => nothing),
    effectOfNo: chance.map(() => nothing),
    steps: chance.map((_, f) => ({
      findings: [f],
      cost: between(0.5, 6),
      line: 0,
      setups: 0,
      keeps: -1,
      power: false,
      order: f,
      barred: false,
    })),
    fixes: Array.from({ length: fixes }, (_, c) => ({
      cost: between(3, 30),
      setups: 0,
      cures: new Map([[c, 1]]),
      outcome: -1,
      order: c,
      barred: false,
    })),
    setupCosts: [],
    ends: [Float64Array.from(sets, () => 60)],
    stopCost: 60,
    truthFixed: true,
  })
  const start: PlanState = {
    weights,
    settled: new Uint8Array(questions),
    tried: new Uint8Array(fixes),
    cured: new Uint8Array(causes),
    standing: 0,
    powerBarred: false,
  }
  return { problem, start }
}
