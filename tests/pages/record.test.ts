/** What a learner knows and mixes up, as the page says it: worked out by hand from a handful of exercises. */
import { describe, expect, it } from 'vitest'
import { confidenceView } from '../../server/pages/practice/confidence-words.js'
import { confusionPicture } from '../../server/pages/practice/confusion-picture.js'
import { agoWords, longWords } from '../../server/pages/practice/day-words.js'
import { recordPage } from '../../server/pages/practice/record-page.js'
import { murphyParts } from '../../server/practice/confidence.js'
import { mixUpsOf } from '../../server/practice/mastery.js'
import { resultsOf } from '../../server/practice/kept-results.js'
import type { Confusion } from '../../shared/knowledge.js'
import { tinyRulebook } from '../cases/tiny-rulebook.js'
import { day } from '../practice/results.js'
import type { Over } from './kept-exercises.js'
import { summaryOf } from './kept-exercises.js'

const start = '2026-01-05T09:00:00.000Z'
const of = {
  learner: 'learner-1',
  kind: 'bench-motor',
  level: 'first',
  suspects: ['brushes', 'cord', 'bearing', 'nothing-wrong'],
}
const learner = { id: 'learner-1', name: 'Ana', class: 'class-1', since: start }
const ofClass = { id: 'class-1', name: 'This shop', since: start }
const over = (days: number, more: Omit<Over, 'at'>): Over => ({ at: day(start, days), ...more })

const four = [
  over(0, { causes: ['brushes'], spread: { points: { brushes: 20, cord: 60 }, other: 20 }, lostMinutes: 20 }),
  over(1, { causes: ['brushes'], spread: { points: { brushes: 60, cord: 20 }, other: 20 }, lostMinutes: 10 }),
  over(2, { causes: ['cord'], spread: { points: { cord: 100 }, other: 0 }, lostMinutes: 0 }),
  over(3, { causes: ['bearing'], spread: { points: { brushes: 50 }, other: 50 }, lostMinutes: null }),
]
const pageOf = (list: readonly Over[], days = 4, knowledge = tinyRulebook) =>
  recordPage({
    knowledge,
    learner,
    ofClass,
    exercises: list.map((it, place) => summaryOf(of, it, place)),
    now: day(start, days),
  })

describe('the confusion picture, counted by hand', () => {
  const { picture } = pageOf(four).pictures[0]!

  it('has the row with the most points astray first, and columns in the order of the rows', () => {
    // brushes: twice, 60 of 100 astray each time on average; bearing once, all 100; cord never
    expect(picture.rows.map(({ mark, name }) => `${mark} ${name}`)).toEqual([
      '1 Cause brushes',
      '2 Cause bearing',
    ])
    expect(picture.heads.map(({ text }) => text)).toEqual(['1', '2', '3', '?'])
    expect(picture.key).toEqual([
      { mark: '3', name: 'Cause cord' },
      { mark: '?', name: 'something else' },
    ])
  })

  it('is hatched by the means: 40, 0, 40, 20 for brushes; 50, 0, 0, 50 for the bearing', () => {
    // levels of hatching begin at 3, 10, 20, 40 and 65 of 100
    expect(picture.rows.map(({ cells }) => cells.map(({ level }) => level))).toEqual([
      [4, 0, 4, 3],
      [4, 0, 0, 4],
    ])
    expect(picture.rows.map(({ cells }) => cells.map(({ right }) => right))).toEqual([
      [true, false, false, false],
      [false, true, false, false],
    ])
  })

  it('says the same in a table and in words', () => {
    expect(picture.table.rows).toEqual([
      { name: 'Cause brushes (2 times)', cells: ['40', 'Cause cord 40, something else 20'] },
      { name: 'Cause bearing (1 time)', cells: ['0', 'Cause brushes 50, something else 50'] },
    ])
    expect(picture.alt).toBe(
      'Where your points went, of 100. Cause brushes: right 40, Cause cord 40, something else 20. Cause bearing: Cause brushes 50, something else 50.',
    )
  })

  it('draws at most eight rows and eleven columns, pools the rest and says so', () => {
    const many = Array.from({ length: 14 }, (_, k) =>
      over(k, { causes: [`c${k}`], spread: { points: { [`d${k}`]: 60 }, other: 40 } }),
    )
    const rows = mixUpsOf(resultsOf(many.map((it, place) => summaryOf(of, it, place))), of.kind)
    const drawn = confusionPicture(tinyRulebook, of.kind, rows, () => 1)!
    expect(drawn.rows).toHaveLength(8)
    expect(drawn.heads.map(({ text }) => text)).toEqual([...'123456789', '+', '?'])
    expect(drawn.table.rows).toHaveLength(14)
    expect(drawn.leftOut).toContain('all 14')
    const [, , width] = drawn.viewBox.split(' ').map(Number)
    const right = drawn.rows[0]!.cells.at(-1)!.x + drawn.side
    expect(right).toBeLessThanOrEqual(width!)
  })

  it('is not there where all points were right', () => {
    expect(pageOf([four[2]!]).pictures).toEqual([])
  })
})

describe('the biggest mix-ups', () => {
  it('come with their points, once for both ways round, and the lesson that tells the two apart', () => {
    const confusion = {
      id: 'stutter',
      name: 'It cuts out',
      rivals: ['brushes', 'cord'],
      shownBy: ['cuts-out'],
      splitters: [],
      checks: [],
      onlyWith: undefined,
    } as unknown as Confusion
    const back = over(5, { causes: ['cord'], spread: { points: { brushes: 30, cord: 70 }, other: 0 } })
    const { mixUps } = pageOf([...four, back], 6, { ...tinyRulebook, confusions: [confusion] })
    expect(mixUps).toHaveLength(2)
    expect(mixUps[0]).toEqual({
      title: 'Cause brushes, taken for cause cord',
      // (60 + 20) / 2; and of cord (0 + 30) / 2 is below what is told
      says: 'It was there twice, and 40 of 100 points went to the wrong one, on average',
      kind: '',
      lesson: {
        name: 'It cuts out',
        href: '/practice/lessons/confusions/stutter?kind=bench-motor&for=learner-1',
      },
    })
    expect(mixUps[1]!.says).toBe('It was there once, and 50 of 100 points went to the wrong one')
    const both = pageOf([four[0]!, { ...back, at: day(start, 1) }]).mixUps
    expect(both.map(({ says }) => says)).toEqual([
      'It was there once, and 60 of 100 points went to the wrong one; the other way round 30 of 100',
    ])
  })
})

describe('how sure against how right', () => {
  /**
   * Five steps, each ten times: Murphy, "A new vector partition of the probability score", Journal of Applied
   * Meteorology 12 (1973); parts as defined in the documentation of SpecsVerification, BrierDecomp:
   * reliability .006, resolution .0904, uncertainty .2484, so that .34 of what there is to know is known.
   */
  const record = (
    [
      [0.1, 10, 1],
      [0.3, 10, 4],
      [0.5, 10, 5],
      [0.8, 10, 7],
      [0.9, 10, 10],
    ] as const
  ).flatMap(([forecast, times, hits]) =>
    Array.from({ length: times }, (_, k) => ({ forecast, outcome: k < hits ? 1 : 0 })),
  )
  const view = confidenceView(murphyParts(record)!)

  it('counts by steps of 10 points', () => {
    expect(view.rows.map(({ said, so }) => `${said}: ${so}`)).toEqual([
      '10: 1 of 10 times',
      '30: 4 of 10 times',
      '50: 5 of 10 times',
      '80: 7 of 10 times',
      '90: 10 of 10 times',
    ])
    expect(view.shared).toBe(false)
  })

  it('tells the three parts in points: roots of .006, .0904 and .2484', () => {
    const says = Object.fromEntries(view.parts.map(({ name, says }) => [name, says]))
    expect(says['Your word']).toContain('about 8 points apart')
    expect(says['Telling apart']).toContain('about 30 points')
    expect(says['The tools themselves']).toContain('27 of 50 suspects were there')
    expect(says['The tools themselves']).toContain('about 50 points off')
    expect(says['All together']).toContain('34 in 100')
  })

  it('takes somebody at their word, calls them too sure, too careful, or waits', () => {
    expect(view.verdict).toBe(
      'You know how sure you may be. Of 30 suspects with 50 points or more your points promised 22, and 22 were there.',
    )
    const gave = (forecast: number, times: number, hits: number) =>
      confidenceView(
        murphyParts(Array.from({ length: times }, (_, k) => ({ forecast, outcome: k < hits ? 1 : 0 })))!,
      )
    expect(gave(0.8, 20, 10)).toMatchObject({
      verdict: expect.stringMatching(
        /^You are surer than you are right\. .*promised 16, and 10 were there/,
      ) as string,
      example: 'When you gave 80, it was there 10 of 20 times.',
    })
    expect(gave(0.6, 20, 19).verdict).toMatch(/^You are right more often than you dare to say/)
    expect(gave(0.8, 4, 0).verdict).toMatch(/^Too few yet/)
    expect(gave(0.2, 40, 8)).toMatchObject({
      verdict: expect.stringMatching(/^You never gave/) as string,
      example: '',
    })
  })

  it('counts each of two faults half, and says so', () => {
    const { confidence } = pageOf([
      over(0, { causes: ['brushes', 'cord'], spread: { points: { brushes: 50, cord: 50 }, other: 0 } }),
    ])
    expect(confidence!.rows.map(({ said, so }) => `${said}: ${so}`)).toEqual([
      '0: 0 of 2 times',
      '50: 1 of 2 times',
    ])
    expect(confidence!.shared).toBe(false)
    const uneven = pageOf([
      over(0, { causes: ['brushes', 'cord'], spread: { points: { brushes: 80, cord: 20 }, other: 0 } }),
    ]).confidence!
    expect(uneven.rows.map(({ said, so }) => `${said}: ${so}`)).toContain('80: ½ of 1 time')
    expect(uneven.shared).toBe(true)
  })
})

describe('what is known, and over time', () => {
  it('knows what was found the last three times; says the rest in counts and days', () => {
    const found = (days: number, points: number) =>
      over(days, { causes: ['cord'], spread: { points: { cord: points }, other: 100 - points } })
    const page = pageOf([found(0, 0), found(1, 60), found(2, 60), found(3, 60), four[0]!], 9)
    expect(page.lead).toBe(
      '5 exercises finished. 1 fault known: found the last three times that it came; 1 met and not known yet.',
    )
    expect(page.lists[0]).toMatchObject({
      known: [{ name: 'Cause cord', says: 'found 3 of 4 times, last 6 days ago' }],
      met: [{ name: 'Cause brushes', says: 'missed 9 days ago' }],
      unmet: '2 more that this kind of tool can have never came yet.',
    })
  })

  it('tells how many come back when, and never which: the next one would be given away', () => {
    const page = pageOf(four, 4)
    // three causes, and two pairs that were mixed up
    expect(page.coming.rows.reduce((sum, { count }) => sum + count, 0)).toBe(5)
    expect(page.coming.says).toContain('2 of all are pairs')
    expect(JSON.stringify(page.coming)).not.toMatch(/cause|brushes|cord|bearing/i)
  })

  it('draws every exercise, oldest first; what is not worked out yet is hollow', () => {
    const { time } = pageOf(four)
    expect(time!.points.nails.map(({ open }) => open)).toEqual([false, false, false, false])
    // the line for 100 is at 14, for 0 at 116: 20 points are 20.4 units above it
    expect(time!.points.nails.map(({ y }) => y)).toEqual([95.6, 54.8, 14, 116])
    expect(time!.minutes.nails.map(({ y, open }) => [y, open])).toEqual([
      [14, false],
      [65, false],
      [116, false],
      [116, true],
    ])
    expect(time!.rows.map(({ points, lost }) => `${points}, ${lost}`)).toEqual([
      '0 of 100, being worked out',
      '100 of 100, nothing',
      '60 of 100, about 10 minutes',
      '20 of 100, about 20 minutes',
    ])
    // (20 + 60) / 2 and (100 + 0) / 2; (20 + 10) / 2 and 0
    expect(time!.trend).toEqual([
      'In the first 2 exercises 40 of 100 points were on what was wrong; in the last 2 50.',
      'Lost against the plan in each: about 15 minutes at first, nothing lately.',
    ])
  })

  it('has room for sixty and says how many there are', () => {
    const many = Array.from({ length: 75 }, (_, k) => ({ ...four[k % 4]!, at: day(start, k) }))
    const { time } = pageOf(many, 80)
    expect(time!.points.nails).toHaveLength(60)
    expect(time!.rows).toHaveLength(75)
    expect(time!.leftOut).toContain('all 75')
    const xs = time!.points.nails.map(({ x }) => x)
    expect(Math.max(...xs)).toBeLessThan(time!.points.right)
    expect(Math.min(...xs)).toBeGreaterThan(time!.points.left)
  })

  it('without points there is neither confusion nor confidence, and it says what to do', () => {
    const page = pageOf([over(0, { causes: ['cord'] })])
    expect(page).toMatchObject({ withoutPoints: true, confidence: null, pictures: [], mixUps: [] })
    expect(page.time!.points.nails[0]!.open).toBe(true)
  })
})

describe('days in words', () => {
  it.each([
    [0, 'today'],
    [1, 'yesterday'],
    [13, '13 days ago'],
    [21, '3 weeks ago'],
    [90, '3 months ago'],
    [800, '2 years ago'],
  ])('%i days', (days, words) => {
    expect(agoWords('2026-01-05T12:00:00.000Z', day('2026-01-05T12:00:00.000Z', days))).toBe(words)
  })
  it('one day is one', () => expect(longWords(1)).toBe('1 day'))
})
