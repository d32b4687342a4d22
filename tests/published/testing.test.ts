/**
 * Proves that the exact endgame solves sequential testing: series systems (Mitten 1960; Butterworth 1972;
 * Ünlüyurt, Discrete Applied Mathematics 2004), test sequencing (Pattipati & Alexandridis 1990), and Huffman's
 * bound (1952). Hypotheses are what may be the case, ends are verdicts: free when right, ruinous when wrong.
 */
import { describe, expect, it } from 'vitest'
import { endgame } from '../../server/diagnosis/plan/endgame.js'
import type { Planned, Told } from './plan-of.js'
import { planOf } from './plan-of.js'

const ruin = 1e6

/** A verdict for each hypothesis. */
const verdicts = (n: number) =>
  Array.from({ length: n }, (_, right) => Array.from({ length: n }, (_, h) => (h === right ? 0 : ruin)))

/** Parts that fail independently; the verdict is whether the whole works. */
function systemOf(
  fails: readonly number[],
  costs: readonly number[],
  works: (failed: readonly number[]) => boolean,
): Planned {
  const parts = fails.map((_, i) => i)
  const sets = Array.from({ length: 1 << fails.length }, (_, mask) => parts.filter((i) => mask & (1 << i)))
  return planOf({
    sets,
    chances: sets.map((s) => fails.reduce((p, q, i) => p * (s.includes(i) ? q : 1 - q), 1)),
    tests: costs.map((cost, i) => ({ cost, chance: sets.map((s) => (s.includes(i) ? 1 : 0)) })),
    ends: [true, false].map((verdict) => sets.map((s) => (works(s) === verdict ? 0 : ruin))),
  })
}

// Constructed; brute-forced. The order by cost over chance of failure is the theorem (Mitten 1960).
describe('a series of parts, tested until one is found that fails', () => {
  const fails = [0.1, 0.05, 0.4, 0.02]
  const costs = [5, 1, 8, 2]
  const { problem, start } = systemOf(fails, costs, (failed) => failed.length === 0)

  it('costs 12.476, parts 1 and 2 tied for the first place', () => {
    const best = endgame(problem, start)!
    expect(best.value).toBeCloseTo(12.476, 9)
    expect([1, 2]).toContain(best.index)
  })
  it('as the formula has it, by cost over chance of failure', () => {
    const order = [1, 2, 0, 3]
    let reached = 1
    let cost = 0
    for (const i of order) {
      cost += costs[i]! * reached
      reached *= 1 - fails[i]!
    }
    expect(cost).toBeCloseTo(12.476, 9)
  })
})

// Constructed; brute-forced
describe('two parts of three must work', () => {
  const { problem, start } = systemOf([0.1, 0.4, 0.7], [3, 2.5, 1], (failed) => failed.length < 2)
  it('test the cheap one first: 4.985', () => {
    const best = endgame(problem, start)!
    expect(best).toMatchObject({ kind: 'step', index: 2 })
    expect(best.value).toBeCloseTo(4.985, 9)
  })
  const left = (failed: boolean) => {
    const kept = start.weights.map((w, h) => (problem.sets[h]!.includes(2) === failed ? w : 0))
    const mass = kept.reduce((sum, w) => sum + w, 0)
    return { ...start, weights: kept.map((w) => w / mass), settled: Uint8Array.of(0, 0, 1) }
  }
  it('if it works test the surest, if it fails the middle one', () => {
    expect(endgame(problem, left(false))).toMatchObject({ kind: 'step', index: 0 })
    expect(endgame(problem, left(true))).toMatchObject({ kind: 'step', index: 1 })
  })
})

// In the form of Pattipati & Alexandridis 1990, numbers constructed and brute-forced: the smallest case here
// in which the test with the most information is the wrong one to begin with.
describe('five states, five tests that cost one each', () => {
  const chances = [0.7, 0.01, 0.02, 0.1, 0.17]
  const signatures = ['00000', '01001', '00110', '10011', '11000']
  const tests = [0, 1, 2, 3, 4].map((t): Told => ({ cost: 1, chance: signatures.map((s) => Number(s[t])) }))
  const { problem, start } = planOf({ chances, tests, ends: verdicts(5) })

  it('take 2.12 tests, the second test first', () => {
    const best = endgame(problem, start)!
    expect(best).toMatchObject({ kind: 'step', index: 1 })
    expect(best.value).toBeCloseTo(2.12, 9)
  })
  it('between the bound of entropy and the greedy choice, which would begin with the first test', () => {
    const entropy = (list: readonly number[]) => list.reduce((s, p) => (p > 0 ? s - p * Math.log2(p) : s), 0)
    expect(entropy(chances)).toBeCloseTo(1.306297, 6)
    const told = tests.map(({ chance }) => {
      const yes = chances.reduce((sum, p, h) => sum + p * chance[h]!, 0)
      return entropy([yes, 1 - yes])
    })
    expect(told.indexOf(Math.max(...told))).toBe(0)
    const value = endgame(problem, start)!.value
    expect(value).toBeGreaterThan(entropy(chances))
    expect(value).toBeLessThan(2.71)
  })
})

// Expected lengths by Huffman's algorithm, from memory of textbook examples and worked out again by hand.
// With any yes/no test allowed a plan cannot need fewer; with the splits of Huffman's tree it needs no more.
describe('the bound of Huffman', () => {
  const cases: [number[], number[][], number][] = [
    [[0.1, 0.15, 0.3, 0.16, 0.29], [[0], [0, 1], [0, 1, 3], [2], [3]], 2.25],
    [[0.4, 0.2, 0.2, 0.1, 0.1], [[3], [3, 4], [0], [1], [1, 2]], 2.2],
  ]
  it.each(cases)('%j', (chances, splits, length) => {
    const tests = splits.map((split): Told => ({
      cost: 1,
      chance: chances.map((_, h) => (split.includes(h) ? 1 : 0)),
    }))
    const { problem, start } = planOf({ chances, tests, ends: verdicts(5) })
    expect(endgame(problem, start)!.value).toBeCloseTo(length, 9)
    const fewer = planOf({ chances, tests: tests.toSpliced(1, 1), ends: verdicts(5) })
    expect(endgame(fewer.problem, fewer.start)!.value).toBeGreaterThanOrEqual(length - 1e-9)
  })
})
