/**
 * Fraction of faults detected and isolated, terms of MIL-STD-2165 (1985) and IEEE 1522-2004: detected rates over all
 * rates; of the detected, those in an ambiguity group of at most L repair items. The example is constructed, its
 * figures worked out by hand.
 */
import { expect, it } from 'vitest'
import fc from 'fast-check'
import type { Fault } from './ambiguity.js'
import { testability } from './ambiguity.js'

const faults = (rates: number[], signatures: string[], items = rates.map((_, i) => i)): Fault[] =>
  rates.map((rate, i) => ({
    rate,
    signature: [...signatures[i]!].map((bit) => bit === '1'),
    item: items[i]!,
  }))
const signatures = ['100', '110', '110', '011', '011', '000']

it('counts by rate: 96 of 100 detected, of those 40 alone, all in groups of two', () => {
  const { detected, isolatedTo } = testability(faults([40, 25, 15, 10, 6, 4], signatures))
  expect(detected).toBeCloseTo(0.96, 12)
  expect(isolatedTo(1)).toBeCloseTo(40 / 96, 12)
  expect(isolatedTo(2)).toBe(1)
})

it('counts each fault once where all are as common: five of six, one of five', () => {
  const { detected, isolatedTo } = testability(faults([1, 1, 1, 1, 1, 1], signatures))
  expect(detected).toBeCloseTo(5 / 6, 12)
  expect(isolatedTo(1)).toBeCloseTo(1 / 5, 12)
})

it('counts repair items: faults with one repair need no telling apart', () => {
  const { isolatedTo } = testability(faults([40, 25, 15, 10, 6, 4], signatures, [0, 1, 1, 2, 3, 4]))
  expect(isolatedTo(1)).toBeCloseTo(80 / 96, 12)
})

it('grows with the group allowed, whatever the faults', () => {
  const fault = fc.record({
    rate: fc.double({ min: 0.01, max: 9, noNaN: true }),
    signature: fc.array(fc.boolean(), { minLength: 4, maxLength: 4 }),
    item: fc.nat(4),
  })
  fc.assert(
    fc.property(fc.array(fault, { minLength: 1, maxLength: 12 }), (some) => {
      fc.pre(some.some(({ signature }) => signature.includes(true)))
      const { detected, isolatedTo } = testability(some)
      expect(detected).toBeLessThanOrEqual(1 + 1e-12)
      const shares = [1, 2, 3, 4, 5].map(isolatedTo)
      shares.slice(1).forEach((share, k) => expect(share).toBeGreaterThanOrEqual(shares[k]! - 1e-12))
      expect(shares[4]).toBeCloseTo(1, 12)
    }),
  )
})
