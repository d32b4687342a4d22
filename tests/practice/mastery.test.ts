/** What is known and what is mixed up, worked out by hand; and what comes next. */
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { itemsOf } from '../../server/practice/items.js'
import { causesOf, levelOf } from '../../server/practice/level-book.js'
import { confidenceOf, masteryOf, mixUpsOf } from '../../server/practice/mastery.js'
import { skillsSheet } from '../../server/practice/skills.js'
import { whatNext } from '../../server/practice/what-next.js'
import type { Result } from '../../server/practice/result.js'
import { day, resultWith } from './results.js'
import { knowledge } from '../the-rulebook.js'

const start = '2026-01-05T09:00:00.000Z'
const at = (n: number, more: Partial<Result>): Result =>
  resultWith({ exercise: `exercise-${n}`, at: day(start, n), ...more })

describe('mastery', () => {
  const results = [
    at(3, { causes: ['a'], spread: { points: { a: 90 }, other: 10 } }),
    at(1, { causes: ['a'], spread: { points: { b: 60, a: 10 }, other: 30 } }),
    at(2, { causes: ['a', 'b'], spread: { points: { a: 30, b: 30, c: 40 }, other: 0 } }),
    at(4, { causes: ['a'], spread: { points: { a: 60 }, other: 40 } }),
  ]

  it('counts how often a cause was there, found, and with how many points, over time', () => {
    const [a, b] = masteryOf(results)
    expect(a).toMatchObject({
      cause: 'a',
      times: 4,
      found: 3,
      points: (10 + 60 + 90 + 60) / 4,
      mastered: true,
    })
    expect(a!.history.map(({ points }) => points)).toEqual([10, 60, 90, 60])
    expect(b).toMatchObject({ cause: 'b', times: 1, found: 1, points: 60, mastered: false })
  })

  it('tells where the points went: half an exercise to each of two causes', () => {
    const [a, b] = mixUpsOf(results, 'tiny')
    expect(a!.weight).toBe(3.5)
    // in the second both were there, so points on either are right
    expect(a!.points['a']).toBeCloseTo((10 + (30 + 30) / 2 + 90 + 60) / 3.5, 12)
    expect(a!.points['b']).toBeCloseTo(60 / 3.5, 12)
    expect(a!.other).toBeCloseTo((30 + 10 + 40) / 3.5, 12)
    expect(b!.points).toEqual({ b: 60, c: 40 })
    expect(mixUpsOf(results, 'other')).toEqual([])
  })

  it('each row of the confusion picture comes to 100', () => {
    const result = fc.record({
      causes: fc.constantFrom(['a'], ['b'], ['a', 'c'], ['c']),
      cut: fc.tuple(fc.integer({ min: 0, max: 5 }), fc.integer({ min: 0, max: 5 })),
    })
    fc.assert(
      fc.property(fc.array(result, { maxLength: 20 }), (list) => {
        const made = list.map(({ causes, cut: [a, b] }, n) =>
          at(n, { causes, spread: { points: { a: a * 10, b: b * 10 }, other: 100 - a * 10 - b * 10 } }),
        )
        for (const { points, other } of mixUpsOf(made, 'tiny'))
          expect(Object.values(points).reduce((sum, p) => sum + p, other)).toBeCloseTo(100, 9)
      }),
    )
  })

  it('a record’s parts add up, and exercises without points are left out', () => {
    const all = confidenceOf([...results, at(5, {})])!
    expect(all.exercises).toBe(4)
    const { score, reliability, resolution, uncertainty, within } = all.parts
    expect(Math.abs(score - (reliability - resolution + uncertainty + within))).toBeLessThan(1e-12)
    // three suspects an exercise: the mean over suspects is a third of the mean over exercises
    expect(all.parts.score).toBeCloseTo(all.brier / 3, 12)
    expect(confidenceOf([at(5, {})])).toBeUndefined()
  })

  it('a pair is remembered from the first time that one was missed for the other', () => {
    const items = itemsOf([
      at(1, { causes: ['a'], spread: { points: { b: 60, a: 10 }, other: 30 } }),
      at(2, { causes: ['b'], spread: { points: { b: 100 }, other: 0 } }),
      at(3, { causes: ['c'], spread: { points: { c: 100 }, other: 0 } }),
    ])
    const pair = items.find(({ causes }) => causes.length === 2)!
    expect(pair.causes).toEqual(['a', 'b'])
    expect(pair.reviews.map(({ rating }) => rating)).toEqual([1, 4])
    expect(items.filter(({ causes }) => causes.length === 1)).toHaveLength(3)
  })

  it('the skills sheet tells what was shown, how often and when, and who signed', () => {
    const shown = [{ skill: 'found' as const, kind: 'tiny', subject: 'a' }]
    const signed = { learner: 'learner-1', skill: 'found|tiny|a', by: 'The instructor', at: day(start, 3) }
    const rows = skillsSheet(
      [
        { at: day(start, 2), shown },
        { at: start, shown: [...shown, ...shown] },
      ],
      [signed],
    )
    expect(rows).toEqual([
      { ...shown[0], key: 'found|tiny|a', times: 2, first: start, last: day(start, 2), apart: true, signed },
    ])
  })
})

describe('what comes next', () => {
  const level = levelOf(knowledge, knowledge.levels[0]!.id)
  const [kind] = level.kinds as string[]
  const share = (cause: string) => knowledge.causes.find(({ id }) => id === cause)!.shares[kind!]!
  const of = (about: string, n: number, points: number): Result =>
    resultWith({
      exercise: `exercise-${n}`,
      kind: kind!,
      level: level.id,
      causes: [about],
      at: day(start, n),
      spread: { points: points > 0 ? { [about]: points } : {}, other: 100 - points },
    })

  it('a fresh learner meets the common before the rare, each once', () => {
    const results: Result[] = []
    const met: string[] = []
    for (let n = 0; n < 10; n++) {
      const { about, why } = whatNext(knowledge, level, results, day(start, n / 100))
      expect(why).toBe('new')
      met.push(about)
      results.push({ ...of(about, n, 100), at: day(start, n / 100) })
    }
    expect(new Set(met)).toEqual(
      new Set(causesOf(knowledge, level, kind!, { hideSuspects: false, hidePrices: false })),
    )
    expect(met.map(share)).toEqual(met.map(share).sort((a, b) => b - a))
  })

  it('what was missed comes back first, the sure ones later; the forgotten come back at last', () => {
    const results: Result[] = []
    for (let n = 0; n < 10; n++) {
      const { about } = whatNext(knowledge, level, results, day(start, n / 100))
      results.push({ ...of(about, n, n === 6 ? 0 : 100), at: day(start, n / 100) })
    }
    const missed = results[6]!.causes[0]
    expect(whatNext(knowledge, level, results, day(start, 2))).toMatchObject({ about: missed, why: 'due' })
    const again = [...results, { ...of(missed!, 20, 100), at: day(start, 2) }]
    // all the others were sure: nothing is due on the third day, and the weakest is no longer the one just done
    const soon = whatNext(knowledge, level, again, day(start, 3))
    expect(soon.why).toBe('weakest')
    expect(soon.about).not.toBe(missed)
    const late = whatNext(knowledge, level, again, day(start, 60))
    expect(late.why).toBe('due')
    expect(late.recall!).toBeLessThan(0.9)
  })

  it('two that were mixed up come back as a pair, the one seen less often in the tool', () => {
    const [one, other] = causesOf(knowledge, level, kind!, { hideSuspects: false, hidePrices: false }) as [
      string,
      string,
    ]
    const mixed = resultWith({
      ...of(one, 0, 0),
      spread: { points: { [other]: 100 }, other: 0 },
    })
    const since = [mixed, of(one, 1, 100)]
    const next = whatNext(knowledge, level, since, day(start, 40))
    expect([next.why, next.about]).toEqual(['mixed-up', other])
  })
})
