/** Brier's score and Murphy's parts against printed examples, and the laws that make them worth having. */
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { brierScore, forecastsOf, murphyParts } from '../../server/practice/confidence.js'
import { Spread } from '../../shared/practice.js'

describe('published examples', () => {
  // scikit-learn, documentation of sklearn.metrics.brier_score_loss, its example
  const said = [0.1, 0.9, 0.8, 0.3]
  const was = [0, 1, 1, 0]

  it('scikit-learn: 0.0375 over four yes-no forecasts', () => {
    const record = said.map((forecast, k) => ({ forecast, outcome: was[k]! }))
    expect(murphyParts(record)!.score).toBeCloseTo(0.0375, 12)
    // Brier's own sum over both answers is twice that
    const both = record.map(({ forecast, outcome }) => [
      { forecast, outcome },
      { forecast: 1 - forecast, outcome: 1 - outcome },
    ])
    const mean = both.reduce((sum, it) => sum + brierScore(it), 0) / both.length
    expect(mean).toBeCloseTo(2 * 0.0375, 12)
  })

  it('scikit-learn, an older edition: 0.055', () => {
    const record = [0.1, 0.9, 0.8, 0.4].map((forecast, k) => ({ forecast, outcome: was[k]! }))
    expect(murphyParts(record)!.score).toBeCloseTo(0.055, 12)
  })

  it('hard and right forecasts: 0', () => {
    expect(murphyParts(was.map((outcome) => ({ forecast: outcome, outcome })))!.score).toBe(0)
  })

  it('a table of five bins worked by hand after Murphy (1973)', () => {
    // forecast, times, hits
    const table = [
      [0.1, 10, 1],
      [0.3, 10, 4],
      [0.5, 10, 5],
      [0.8, 10, 7],
      [0.9, 10, 10],
    ] as const
    const record = table.flatMap(([forecast, times, hits]) =>
      Array.from({ length: times }, (_, k) => ({ forecast, outcome: k < hits ? 1 : 0 })),
    )
    const parts = murphyParts(record)!
    expect(parts.score).toBeCloseTo(0.164, 12)
    expect(parts.reliability).toBeCloseTo(0.006, 12)
    expect(parts.resolution).toBeCloseTo(0.0904, 12)
    expect(parts.uncertainty).toBeCloseTo(0.2484, 12)
    expect(parts.within).toBeCloseTo(0, 12)
    expect(1 - parts.score / parts.uncertainty).toBeCloseTo(0.3397746, 7)
    expect(parts.bins.map(({ count }) => count)).toEqual([10, 10, 10, 10, 10])
  })
})

const chance = fc.double({ min: 0, max: 1, noNaN: true })
const suspects = ['a', 'b', 'c', 'd', 'e']
/** Ten steps thrown at six places. */
const spread = fc
  .array(fc.integer({ min: 0, max: suspects.length }), { minLength: 10, maxLength: 10 })
  .map((throws) => {
    const points: Record<string, number> = {}
    let other = 0
    for (const place of throws) {
      if (place === suspects.length) other += 10
      else points[suspects[place]!] = (points[suspects[place]!] ?? 0) + 10
    }
    return Spread.parse({ points, other })
  })

describe('laws', () => {
  it('score = reliability − resolution + uncertainty + within, to 1e-12, whatever is forecast', () => {
    fc.assert(
      fc.property(
        fc.array(fc.record({ forecast: chance, outcome: chance }), { minLength: 1, maxLength: 60 }),
        (record) => {
          const { score, reliability, resolution, uncertainty, within } = murphyParts(record)!
          expect(Math.abs(score - (reliability - resolution + uncertainty + within))).toBeLessThan(1e-12)
        },
      ),
    )
  })

  it('within is nothing where all forecasts are whole steps', () => {
    const whole = fc.record({
      forecast: fc.integer({ min: 0, max: 10 }).map((k) => k / 10),
      outcome: fc.constantFrom(0, 1),
    })
    fc.assert(
      fc.property(fc.array(whole, { minLength: 1, maxLength: 60 }), (record) => {
        expect(Math.abs(murphyParts(record)!.within)).toBeLessThan(1e-12)
      }),
    )
  })

  it('the points of a spread are all shared out while somebody is unnamed', () => {
    fc.assert(
      fc.property(spread, (it) => {
        const forecasts = forecastsOf(it, suspects, ['a'])
        const sum = forecasts.reduce((total, { forecast }) => total + forecast, 0)
        const isEverybodyNamed = suspects.every((id) => (it.points[id] ?? 0) > 0)
        expect(sum).toBeCloseTo(isEverybodyNamed ? 1 - it.other / 100 : 1, 12)
        const score = brierScore(forecasts)
        expect(score).toBeGreaterThanOrEqual(0)
        expect(score).toBeLessThanOrEqual(2)
      }),
    )
  })

  it('no spread expects a better score than the belief itself: honesty pays', () => {
    fc.assert(
      fc.property(spread, spread, (belief, claimed) => {
        const p = forecastsOf(belief, suspects, ['a'])
        if (suspects.every((id) => (belief.points[id] ?? 0) > 0) && belief.other > 0) return
        const expected = (said: Spread) =>
          p.reduce(
            (sum, { cause, forecast }) => sum + forecast * brierScore(forecastsOf(said, suspects, [cause])),
            0,
          )
        expect(expected(claimed)).toBeGreaterThanOrEqual(expected(belief) - 1e-12)
      }),
    )
  })

  it('all points on "something else" is no refuge', () => {
    const sure = (cause: string) => Spread.parse({ points: { [cause]: 100 }, other: 0 })
    const nobody = Spread.parse({ points: {}, other: 100 })
    const of = (it: Spread) => brierScore(forecastsOf(it, suspects, ['a']))
    expect(of(sure('a'))).toBe(0)
    expect(of(sure('b'))).toBe(2)
    expect(of(nobody)).toBeCloseTo(0.8 ** 2 + 4 * 0.2 ** 2, 12)
  })

  it('refuses points that are no steps of ten or do not come to 100', () => {
    expect(Spread.safeParse({ points: { a: 95 }, other: 5 }).success).toBe(false)
    expect(Spread.safeParse({ points: { a: 90 }, other: 0 }).success).toBe(false)
    expect(Spread.safeParse({ points: { a: 90 }, other: 10 }).success).toBe(true)
  })
})
