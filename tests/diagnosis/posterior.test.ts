/**
 * Proves that the posterior is exact: to 1e-9 of what adding up every state of every cause gives (own slow
 * implementation beside, brute-force.ts), with many findings seen, fixes tried in between, strengths hard
 * against 0 and 1, and causes that exclude the others. Past the bound it says that it is not exact.
 */
import { describe, expect, it } from 'vitest'
import type { NoisyOrModel } from '../../server/diagnosis/noisy-or.js'
import { mostPositives, weigh } from '../../server/diagnosis/posterior.js'
import { enumerated } from './brute-force.js'
import type { Scored, Shape } from './random-model.js'
import { randomlyScored } from './random-model.js'

function expectExact({ model, observations, tried }: Scored): void {
  const fast = weigh(model, observations, tried)
  const slow = enumerated(model, observations, tried)
  expect(fast.exact).toBe(true)
  const close = (value: number, expected: number, what: string) =>
    expect(Math.abs(value - expected), `${what}: ${value} for ${expected}`).toBeLessThanOrEqual(
      1e-9 * expected,
    )
  close(fast.trouble, slow.trouble, 'trouble')
  close(fast.none, slow.none, 'nothing left')
  model.priors.forEach((_, i) => {
    close(fast.there[i]!, slow.there[i]!, `cause ${i} there`)
    close(fast.sole[i]!, slow.sole[i]!, `cause ${i} alone`)
  })
}

const shapes: [string, Shape, number][] = [
  ['no causes but one', { causes: 1, positives: 1, negatives: 1 }, 5],
  ['nothing seen', { causes: 9, positives: 0, negatives: 0, fixes: 2 }, 3],
  ['only missing findings', { causes: 10, positives: 0, negatives: 9, fixes: 1 }, 3],
  ['a middling case', { causes: 8, positives: 4, negatives: 4 }, 12],
  ['14 causes', { causes: 14, positives: 5, negatives: 5 }, 3],
  ['12 positives', { causes: 11, positives: 12, negatives: 3 }, 4],
  ['as many positives as the tables take', { causes: 9, positives: mostPositives, negatives: 2 }, 2],
  ['one fix, findings before and after', { causes: 9, positives: 4, negatives: 4, fixes: 1 }, 8],
  ['four fixes, findings between them', { causes: 7, positives: 6, negatives: 5, fixes: 4 }, 8],
  ['14 causes, two fixes, 12 positives', { causes: 14, positives: 12, negatives: 2, fixes: 2 }, 1],
  ['extreme strengths', { causes: 9, positives: 6, negatives: 5, extreme: true }, 10],
  ['extreme strengths, fixes', { causes: 7, positives: 8, negatives: 4, fixes: 3, extreme: true }, 8],
  ['one exclusive cause', { causes: 8, positives: 5, negatives: 4, exclusive: 1 }, 8],
  ['two exclusive causes, fixes', { causes: 8, positives: 5, negatives: 4, exclusive: 2, fixes: 3 }, 8],
  ['all causes exclusive', { causes: 4, positives: 3, negatives: 3, exclusive: 4, fixes: 2 }, 4],
]

describe.each(shapes)('%s', (_, shape, count) => {
  it.each(Array.from({ length: count }, (_, k) => k))('random network %i', (k) => {
    expectExact(randomlyScored(k * 31 + shape.causes, shape))
  })
})

describe('certain strengths, 0 and 1 themselves', () => {
  const model: NoisyOrModel = {
    priors: [0.1, 0.2, 0.3],
    exclusive: [false, false, false],
    leaks: [0, 0.1, 0],
    strengths: [
      [1, 0, 0.5],
      [0, 1, 1],
      [0, 0, 1],
    ],
  }
  it('are scored like the others', () => {
    for (let mask = 0; mask < 8; mask++) {
      const observations = [0, 1, 2].map((finding) => ({
        finding,
        present: (mask & (1 << finding)) !== 0,
        after: 0,
      }))
      expectExact({ model, observations, tried: [] })
    }
  })
  it('what cannot be has no weight, and nothing turns into a NaN', () => {
    const none = { ...model, strengths: [[0, 0, 0], ...model.strengths.slice(1)] }
    const { trouble, there } = weigh(none, [{ finding: 0, present: true, after: 0 }], [])
    expect(trouble).toBe(0)
    expect([...there]).toEqual([0, 0, 0])
  })
})

describe('fixes and the order of time', () => {
  const model: NoisyOrModel = {
    priors: [0.2, 0.1],
    exclusive: [false, false],
    leaks: [0.05],
    strengths: [[0.9, 0.6]],
  }
  const seenAfter = (after: number) => [{ finding: 0, present: true, after }]
  const share = (after: number, tried: number[][]) => {
    const { there, trouble } = weigh(model, seenAfter(after), tried)
    return there[0]! / trouble
  }
  it('a sign seen after the fix speaks more for the fixed cause than one seen before', () => {
    expect(share(1, [[0.9, 0]])).toBeGreaterThan(share(0, [[0.9, 0]]))
  })
  it('two fixes leave what both have missed', () => {
    // by hand: π·(1−.9)·(1−.5) still there, the other cause untouched, nothing seen
    const { there, trouble } = weigh(
      model,
      [],
      [
        [0.9, 0],
        [0.5, 0],
      ],
    )
    const left = 0.2 * 0.1 * 0.5
    expect(there[0]).toBeCloseTo(left, 15)
    expect(trouble).toBeCloseTo(1 - (1 - left) * 0.9, 15)
  })
})

// A bound of the method: past this many positives, the likeliest sets of causes stand for all. The numbers of
// the tolerance are ours: a hundredth of a share, so that a count "in 100" is off by one at most.
describe('more positive findings than the tables take', () => {
  it.each([0, 1, 2, 3, 4, 5])('random network %i: says so, and is near', (k) => {
    const { model, observations, tried } = randomlyScored(500 + k, {
      causes: 10,
      positives: mostPositives + 1 + k,
      negatives: 3,
      fixes: k % 2,
      exclusive: 1,
    })
    const fast = weigh(model, observations, tried)
    const slow = enumerated(model, observations, tried)
    expect(fast.exact).toBe(false)
    model.priors.forEach((_, i) => {
      expect(Math.abs(fast.there[i]! / fast.trouble - slow.there[i]! / slow.trouble)).toBeLessThan(0.01)
      expect(Math.abs(fast.sole[i]! / fast.trouble - slow.sole[i]! / slow.trouble)).toBeLessThan(0.01)
    })
  })
})
