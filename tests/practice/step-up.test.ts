/** When the next level is offered, and when things come back. */
import { describe, expect, it } from 'vitest'
import { comingBack } from '../../server/practice/coming-back.js'
import { stepUp } from '../../server/practice/step-up.js'
import { loadKnowledge } from '../../server/knowledge/load.js'
import type { Result } from '../../server/practice/result.js'
import { day, resultWith } from './results.js'

const start = '2026-01-05T09:00:00.000Z'
const knowledge = loadKnowledge()
const [first, second] = [...knowledge.levels].sort((a, b) => a.order - b.order)
const found = (n: number, more: Partial<Result> = {}): Result =>
  resultWith({
    exercise: `exercise-${n}`,
    at: day(start, n),
    level: first!.id,
    spread: { points: { a: 60 }, other: 40 },
    ...more,
  })

describe('the step up', () => {
  it('is offered after three in a row, and not after two', () => {
    expect(stepUp(knowledge, first!, [found(1), found(2)])).toBeUndefined()
    expect(stepUp(knowledge, first!, [found(1), found(2), found(3)])?.id).toBe(second!.id)
  })
  it.each([
    ['a miss', { spread: { points: { b: 100 }, other: 0 } }],
    ['a slip that was only noted', { slips: ['any'] }],
    ['a tool handed back as it was', { over: 'hand-back' as const, mended: false }],
    ['no points', { spread: undefined }],
  ])('is not offered after %s, and is after three more', (_, more) => {
    const missed = [found(1), found(2), found(3, more)]
    expect(stepUp(knowledge, first!, missed)).toBeUndefined()
    expect(stepUp(knowledge, first!, [...missed, found(4), found(5)])).toBeUndefined()
    expect(stepUp(knowledge, first!, [...missed, found(4), found(5), found(6)])?.id).toBe(second!.id)
  })
  it('counts exercises of the level alone, in time', () => {
    const other = found(4, { level: second!.id, spread: { points: { b: 100 }, other: 0 } })
    expect(stepUp(knowledge, first!, [other, found(3), found(1), found(2)])?.id).toBe(second!.id)
    expect(stepUp(knowledge, second!, [found(1), found(2), found(3)])).toBeUndefined()
  })
  it('ends with the last level', () => {
    const last = [...knowledge.levels].sort((a, b) => b.order - a.order)[0]!
    expect(
      stepUp(
        knowledge,
        last,
        [1, 2, 3].map((n) => found(n, { level: last.id })),
      ),
    ).toBeUndefined()
  })
})

describe('coming back', () => {
  // FSRS-6 as published with ts-fsrs: the first interval after a third grade is 2 days, after a fourth 8 days
  it('soonest first, in whole days; what is past is due', () => {
    const results = [
      found(0, { causes: ['a'], spread: { points: { a: 100 }, other: 0 } }),
      found(0, { exercise: 'exercise-x', causes: ['b'], spread: { points: { b: 50 }, other: 50 } }),
    ]
    expect(comingBack(results, day(start, 0))).toEqual([
      { kind: 'tiny', causes: ['b'], isDue: false, days: 2 },
      { kind: 'tiny', causes: ['a'], isDue: false, days: 8 },
    ])
    expect(comingBack(results, day(start, 3))).toMatchObject([
      { causes: ['b'], isDue: true, days: 0 },
      { causes: ['a'], isDue: false, days: 5 },
    ])
  })
})
