import { describe, expect, it } from 'vitest'
import fc from 'fast-check'
import { chance, exponential, keyOf, normal } from '../../server/simulation/chance.js'

// FNV-1a, 32 bits, test vectors of RFC 9923 (draft-eastlake-fnv), from memory: "" 811c9dc5, "a" e40c292c, "foobar" bf9cf968.
it.each([
  ['', 0x811c9dc5],
  ['a', 0xe40c292c],
  ['foobar', 0xbf9cf968],
])('hashes "%s" as published', (text, expected) => {
  expect(keyOf(text)).toBe(expected)
})

describe('a chance', () => {
  it('is the same for the same keys, and lies in [0, 1)', () => {
    fc.assert(
      fc.property(fc.integer({ min: 0 }), fc.array(fc.integer({ min: 0 }), { maxLength: 3 }), (n, keys) => {
        const u = chance(n, ...keys)
        expect(chance(n, ...keys)).toBe(u)
        expect(u).toBeGreaterThanOrEqual(0)
        expect(u).toBeLessThan(1)
      }),
    )
  })

  // Chi-square with 99 degrees of freedom: 99.9 % quantile 148.2 (standard tables).
  it.each([
    ['by number', (k: number) => chance(k, keyOf('worn-brushes'))],
    ['by number, two keys', (k: number) => chance(k, keyOf('slows-down'), keyOf('worn-brushes'))],
    ['by id', (k: number) => chance(7, keyOf(`finding-${k}`))],
  ])('is spread evenly %s', (_, draw) => {
    const n = 50_000
    const cells = new Array<number>(100).fill(0)
    for (let k = 0; k < n; k++) cells[Math.floor(100 * draw(k))]!++
    const chiSquare = cells.reduce((sum, count) => sum + (count - n / 100) ** 2 / (n / 100), 0)
    expect(chiSquare).toBeLessThan(148.2)
  })

  it('of one key tells nothing of another, nor of the next number', () => {
    const n = 50_000
    const correlation = (a: (k: number) => number, b: (k: number) => number) => {
      let sum = 0
      for (let k = 0; k < n; k++) sum += (a(k) - 0.5) * (b(k) - 0.5)
      return (12 * sum) / n
    }
    const one = (k: number) => chance(k, 1)
    // 1/√n is the standard error of a correlation that is none; four of them
    for (const other of [
      (k: number) => chance(k, 2),
      (k: number) => chance(k + 1, 1),
      (k: number) => chance(k, 1, 0),
    ])
      expect(Math.abs(correlation(one, other))).toBeLessThan(4 / Math.sqrt(n))
  })
})

it('makes exponential and normal numbers of the right mean and spread', () => {
  const n = 20_000
  const some = (draw: (k: number) => number) => Array.from({ length: n }, (_, k) => draw(k))
  const mean = (values: number[]) => values.reduce((sum, v) => sum + v, 0) / n
  const waits = some((k) => exponential(chance(k, 5)))
  expect(mean(waits)).toBeCloseTo(1, 1)
  const bells = some((k) => normal(chance(k, 6), chance(k, 7)))
  expect(mean(bells)).toBeCloseTo(0, 1)
  expect(mean(bells.map((v) => v * v))).toBeCloseTo(1, 1)
  // one in three is more than 0.9674 from the mean, tables of the normal distribution
  expect(bells.filter((v) => Math.abs(v) > 0.9674).length / n).toBeCloseTo(1 / 3, 1)
})
