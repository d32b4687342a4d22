/**
 * Sources
 * - Capital recovery: the usual interest tables of engineering economy, such as those in the appendices of textbooks
 *   (factor i(1 + i)^n / ((1 + i)^n − 1), four decimals); the row of 0.25 % to five.
 * - Repair or replace: a worked example at 10 %, worked by hand.
 * - Age replacement: Barlow & Hunter, "Optimum preventive maintenance policies", Operations Research 8 (1960) 90–100;
 *   inputs as in a published example (shape 2.5, scale 1000, a planned change 1, a failure 5); uniform life: Jardine &
 *   Tsang, Maintenance, Replacement and Reliability, ch. 2, problem 2. Weibull values: documentation of a spreadsheet's
 *   WEIBULL function.
 * - Mean residual life: of the exponential it is its mean at every age (no memory); of the Rayleigh (shape 2) the closed
 *   form η·(√π/2)·exp(x²)·erfc(x), x = t/η (Guess & Proschan, "Mean residual life: theory and applications", Handbook of
 *   Statistics 7, 1988), erfc as in Abramowitz & Stegun, table 7.1; means by the gamma function, table 6.1.
 */
import { describe, expect, it } from 'vitest'
import {
  capitalRecovery,
  economicLife,
  equivalentAnnualCost,
  presentWorthOfLater,
  presentWorthOfYearly,
  sinkingFund,
} from '../../server/decision/economy/annual.js'
import {
  bestAge,
  costRate,
  hazard,
  meanLife,
  meanResidualLife,
  survival,
} from '../../server/decision/economy/age-replacement.js'

const years = [1, 2, 3, 4, 5, 6, 8, 10, 15, 20]
const table: Readonly<Record<string, readonly number[]>> = {
  '0.05': [1.05, 0.5378, 0.3672, 0.282, 0.231, 0.197, 0.1547, 0.1295, 0.0963, 0.0802],
  '0.08': [1.08, 0.5608, 0.388, 0.3019, 0.2505, 0.2163, 0.174, 0.149, 0.1168, 0.1019],
  '0.1': [1.1, 0.5762, 0.4021, 0.3155, 0.2638, 0.2296, 0.1874, 0.1627, 0.1315, 0.1175],
  '0.12': [1.12, 0.5917, 0.4163, 0.3292, 0.2774, 0.2432, 0.2013, 0.177, 0.1468, 0.1339],
  '0.15': [1.15, 0.6151, 0.438, 0.3503, 0.2983, 0.2642, 0.2229, 0.1993, 0.171, 0.1598],
}

describe('the capital recovery factor', () => {
  const cells = Object.entries(table).flatMap(([rate, row]) =>
    row.map((factor, k): [string, number, number] => [rate, years[k]!, factor]),
  )
  it.each(cells)('at %s over %i years is %d', (rate, n, factor) => {
    expect(Number(capitalRecovery(Number(rate), n).toFixed(4))).toBe(factor)
  })

  it('has its sister factors as printed', () => {
    expect(presentWorthOfYearly(0.1, 5)).toBeCloseTo(3.7908, 4)
    expect(presentWorthOfLater(0.1, 5)).toBeCloseTo(0.6209, 4)
    expect(sinkingFund(0.1, 5)).toBeCloseTo(0.1638, 4)
    expect(capitalRecovery(0.0025, 5)).toBeCloseTo(0.2015, 5)
    expect(presentWorthOfYearly(0.0025, 5)).toBeCloseTo(4.9627, 4)
    expect(sinkingFund(0.0025, 5)).toBeCloseTo(0.199, 5)
  })

  it('comes to equal parts without interest, and to that in the limit', () => {
    expect(capitalRecovery(0, 8)).toBe(1 / 8)
    expect(capitalRecovery(1e-12, 8)).toBeCloseTo(1 / 8, 10)
  })

  it.each([
    [-0.01, 5],
    [0.1, 0],
    [0.1, -2],
    [Number.NaN, 5],
    [0.1, Number.NaN],
    [0.1, Infinity],
  ])('refuses a rate of %d over %d years', (rate, n) => {
    expect(() => capitalRecovery(rate, n)).toThrow(RangeError)
  })
})

describe('repair or replace, at 10 %', () => {
  it('repair for 120, two years at 40 a year', () => {
    expect(equivalentAnnualCost({ now: 120, yearly: 40, years: 2 }, 0.1)).toBeCloseTo(109.1429, 4)
  })
  it('replace for 300, five years at 10 a year, 30 in the end: cheaper', () => {
    expect(equivalentAnnualCost({ now: 300, yearly: 10, years: 5, salvage: 30 }, 0.1)).toBeCloseTo(84.2253, 4)
  })
})

describe('economic life', () => {
  it('without interest is the year of least mean cost, by hand: 100 and 10, 20, 60 a year', () => {
    // means: 110, 65, 63.33, then a year of 80: 67.5
    const life = economicLife(100, [10, 20, 60, 80], 0)
    expect(life.years).toBe(3)
    expect(life.yearly).toBeCloseTo(190 / 3, 10)
    expect(life.stillFalling).toBe(false)
  })
  it('says when the record ends before the costs a year rise again', () => {
    expect(economicLife(100, [10, 10], 0.05)).toMatchObject({ years: 2, stillFalling: true })
  })
  it('agrees with the equivalent annual cost where every year costs the same', () => {
    const { years: n, yearly } = economicLife(300, [10, 10, 10, 10, 10], 0.1, () => 30)
    expect(yearly).toBeCloseTo(equivalentAnnualCost({ now: 300, yearly: 10, years: n, salvage: 30 }, 0.1), 10)
  })
  it('needs a year', () => {
    expect(() => economicLife(100, [], 0.1)).toThrow(RangeError)
  })
})

describe('age replacement', () => {
  it('Weibull: survival and hazard as printed', () => {
    expect(1 - survival({ shape: 20, scale: 100 }, 105)).toBeCloseTo(0.929581, 6)
    const life = { shape: 1.5, scale: 5000 }
    expect([1000, 5000, 10000].map((age) => survival(life, age).toFixed(6))).toEqual([
      '0.914441',
      '0.367879',
      '0.059106',
    ])
    expect(hazard(life, 1000)).toBeCloseTo(1.341641e-4, 10)
    expect(hazard(life, 10000)).toBeCloseTo(4.242641e-4, 10)
    expect(meanLife(life)).toBeCloseTo(4513.726, 3)
  })

  it('shape 2.5, scale 1000, 1 against 5: at 493.047', () => {
    const best = bestAge({ shape: 2.5, scale: 1000 }, { planned: 1, failure: 5 })
    expect(best.age).toBeCloseTo(493.047, 2)
    expect(best.rate).toBeCloseTo(0.00346204, 8)
  })

  it('run to failure costs 0.0056353 there', () => {
    const life = { shape: 2.5, scale: 1000 }
    expect(5 / meanLife(life)).toBeCloseTo(0.0056353, 7)
  })

  it('uniform life up to 40000, 100 against 200', () => {
    const survives = (age: number) => 1 - age / 40_000
    const rate = (age: number) => costRate(survives, age, { planned: 100, failure: 200 })
    expect([1e4, 2e4, 3e4, 4e4].map((age) => rate(age).toFixed(4))).toEqual([
      '0.0143',
      '0.0100',
      '0.0093',
      '0.0100',
    ])
    const best = 40_000 * (Math.sqrt(3) - 1)
    expect(rate(best)).toBeCloseTo(0.00933013, 8)
    expect(rate(best - 200)).toBeGreaterThan(rate(best))
    expect(rate(best + 200)).toBeGreaterThan(rate(best))
  })

  it.each([1, 0.7])('what does not wear (shape %d) is never changed before it fails', (shape) => {
    expect(bestAge({ shape, scale: 1000 }, { planned: 1, failure: 5 }).age).toBe(Infinity)
  })
  it('nor what costs no more when it fails', () => {
    expect(bestAge({ shape: 3, scale: 1000 }, { planned: 5, failure: 5 }).age).toBe(Infinity)
  })
})

describe('mean residual life', () => {
  it.each([0, 1, 30])('of what does not age is its mean at every age: %d', (age) => {
    expect(meanResidualLife({ shape: 1, scale: 3 }, age)).toBeCloseTo(3, 8)
  })

  // erfc(0.5) = 0.4795001222, erfc(1) = 0.1572992070, erfc(2) = 0.0046777350
  it.each([
    [0.5, 0.4795001222],
    [1, 0.157299207],
    [2, 0.004677735],
  ])('of shape 2 follows the closed form at %d', (x, erfc) => {
    const closed = 10 * (Math.sqrt(Math.PI) / 2) * Math.exp(x * x) * erfc
    expect(meanResidualLife({ shape: 2, scale: 10 }, 10 * x)).toBeCloseTo(closed, 5)
  })

  it('at age 0 is the mean life: Γ(1.4) = 0.88726 38175, Γ(1 + 2/3) = 0.90274 52930', () => {
    expect(meanLife({ shape: 2.5, scale: 1 })).toBeCloseTo(0.8872638175, 9)
    expect(meanLife({ shape: 1.5, scale: 1 })).toBeCloseTo(0.902745293, 8)
  })

  it('of a wearing thing falls with age towards one over its hazard', () => {
    const life = { shape: 2.5, scale: 6.76 }
    const left = [0, 3, 6, 12, 40].map((age) => meanResidualLife(life, age))
    expect(left).toEqual([...left].sort((a, b) => b - a))
    expect(left.at(-1)! * hazard(life, 40)).toBeCloseTo(1, 1)
  })
})
