/**
 * The model of forgetting against the vectors that its makers publish: open-spaced-repetition/ts-fsrs (MIT),
 * `__tests__/FSRS-6.test.ts`, release 5.4.2, default parameters.
 */
import { describe, expect, it } from 'vitest'
import type { Rating, Review } from '../../server/practice/recall.js'
import { memoryOf, ratingOf, wantedRecall } from '../../server/practice/recall.js'
import { day, resultWith } from './results.js'

const start = '2022-12-29T12:30:00.000Z'

describe('published vectors', () => {
  it('the days to each next review, every one done when due', () => {
    const ratings: Rating[] = [3, 3, 3, 3, 3, 3, 1, 1, 3, 3, 3, 3, 3]
    const reviews: Review[] = []
    let at = start
    for (const rating of ratings) {
      reviews.push({ rating, at })
      at = memoryOf(reviews, true).due
    }
    expect(memoryOf(reviews, true).intervals).toEqual([0, 2, 11, 46, 163, 498, 0, 0, 2, 4, 7, 12, 21])
  })

  const gaps = [0, 0, 1, 3, 8, 21]
  const reviews = gaps.map((_, k): Review => ({
    rating: k === 0 ? 1 : 3,
    at: day(
      start,
      gaps.slice(0, k + 1).reduce((sum, gap) => sum + gap, 0),
    ),
  }))

  it.each([
    [true, 53.62691],
    [false, 53.335106],
  ])('stability and difficulty after six reviews, steps of minutes %s', (shortTerm, stability) => {
    const memory = memoryOf(reviews, shortTerm)
    expect(Math.abs(memory.stability - stability)).toBeLessThan(1e-4)
    expect(Math.abs(memory.difficulty - 6.3574867)).toBeLessThan(1e-4)
  })

  it.each([
    [1, 0.212, 6.4133],
    [2, 1.2931, 5.11217071],
    [3, 2.3065, 2.11810397],
    [4, 8.2956, 1],
  ] as const)('the first rating %d', (rating, stability, difficulty) => {
    const memory = memoryOf([{ rating, at: start }], true)
    expect(memory.stability).toBeCloseTo(stability, 4)
    expect(memory.difficulty).toBeCloseTo(difficulty, 4)
  })

  it('recall falls by its printed formula; a first rating of 4 is due after eight days at 0.9024733', () => {
    const memory = memoryOf([{ rating: 4, at: start }])
    expect(memory.scheduledDays).toBe(8)
    expect(memory.recallAt(memory.due)).toBeCloseTo(0.9024733, 6)
    // R(t, S) = (1 + F·t/S)^(−w20) with w20 = 0.1542 and F = 0.9^(−1/w20) − 1
    const f = 0.9 ** (-1 / 0.1542) - 1
    for (const days of [1, 10, 30, 90])
      expect(memory.recallAt(day(start, days))).toBeCloseTo((1 + (f * days) / 8.2956) ** -0.1542, 6)
  })
})

describe('the rating of an exercise', () => {
  const found = (points: number, more: object = {}) =>
    ratingOf(
      resultWith({ causes: ['a'], spread: { points: { a: points }, other: 100 - points }, ...more }),
      'a',
    )

  it('goes by the points on the cause', () => {
    expect([0, 10, 40, 50, 70, 80, 100].map((points) => found(points))).toEqual([1, 2, 2, 3, 3, 4, 4])
  })

  it('is 1 whenever a slip ended it, and never 4 with a slip', () => {
    expect(found(100, { over: 'slip', slips: ['x'] })).toBe(1)
    expect(found(100, { slips: ['x'] })).toBe(3)
  })

  it('is at most 2 where it was handed back with the trouble in it, and at least 2 where it was fixed', () => {
    expect(found(100, { over: 'hand-back', mended: false })).toBe(2)
    expect(found(0, { over: 'hand-back', mended: true })).toBe(2)
  })

  it('counts half the points as all of them where two causes were there', () => {
    const result = resultWith({ causes: ['a', 'b'], spread: { points: { a: 50, b: 30 }, other: 20 } })
    expect(ratingOf(result, 'a')).toBe(4)
    expect(ratingOf(result, 'b')).toBe(3)
  })

  it('the better the rating, the later it comes again', () => {
    const next = ([1, 2, 3, 4] as const).map((rating) => memoryOf([{ rating, at: start }]).scheduledDays)
    expect([...next].sort((a, b) => a - b)).toEqual(next)
    expect(next[0]).toBeGreaterThanOrEqual(1)
    expect(wantedRecall).toBe(0.9)
  })
})
