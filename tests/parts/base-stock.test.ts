/**
 * How many to keep. Base stock: Palm 1938; Feeney & Sherbrooke 1966. The tables were worked out by two other programs
 * (R's ppois and a Python script) from Poisson demand; a gamma law that is as good as certain must come to the same.
 */
import { describe, expect, it } from 'vitest'
import {
  baseStock,
  demandAtMost,
  expectedRate,
  meanOf,
  runsOut,
  seen,
} from '../../server/parts/base-stock.js'

/** As good as a known rate: worth so many uses that nothing moves it. */
const known = (mean: number) => expectedRate(mean, 1e9)

describe('Poisson demand', () => {
  it('of mean 2: P(D ≤ k) for k from 0 to 6', () => {
    const table = [0.1353, 0.406, 0.6767, 0.8571, 0.9473, 0.9834, 0.9955]
    table.forEach((share, k) => expect(demandAtMost(known(2), 1, k)).toBeCloseTo(share, 4))
  })

  it.each([
    [0.25, [2, 2, 3]],
    [0.5, [2, 3, 4]],
    [1, [3, 4, 5]],
    [1.5, [4, 5, 6]],
    [2, [5, 6, 7]],
    [3, [6, 7, 9]],
    [4, [8, 9, 10]],
    [5, [9, 10, 12]],
  ])('of mean %d: the least stock that meets 90, 95, 99 in 100', (mean, stocks) => {
    expect([0.9, 0.95, 0.99].map((level) => baseStock(known(mean), 1, level))).toEqual(stocks)
  })

  it('goes by how long the supplier takes, not by the year', () => {
    expect(baseStock(known(52), 2 / 52, 0.95)).toBe(baseStock(known(2), 1, 0.95))
  })
})

describe('a rate that nobody knows', () => {
  it('is sharpened by what was seen: shape 2, exposure 4, then 5 uses in 10 years: mean 0.5', () => {
    expect(meanOf(seen({ shape: 2, exposure: 4 }, 5, 10))).toBe(0.5)
  })

  it('of shape 1 gives geometric demand: P(D ≤ k) = 1 − (L/(b+L))^(k+1)', () => {
    for (const k of [0, 1, 4])
      expect(demandAtMost({ shape: 1, exposure: 3 }, 1, k)).toBeCloseTo(1 - 0.25 ** (k + 1), 12)
  })

  it('wants more on the shelf than the same mean known for sure', () => {
    expect(baseStock(expectedRate(2), 1, 0.95)).toBeGreaterThan(baseStock(known(2), 1, 0.95))
  })

  it('runs out less often the more is there', () => {
    const chances = [0, 1, 2, 3].map((stock) => runsOut(expectedRate(2), 0.1, stock))
    expect([...chances].sort((a, b) => b - a)).toEqual(chances)
    expect(runsOut(expectedRate(2), 0, 0)).toBe(0)
  })
})
