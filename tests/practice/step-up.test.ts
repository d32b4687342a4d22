/** When the next level is offered, and when things come back. */
import { describe, expect, it } from 'vitest'
import { comingBack } from '../../server/practice/coming-back.js'
import { stepUp } from '../../server/practice/step-up.js'
import type { Result } from '../../server/practice/result.js'
import { day, resultWith } from './results.js'
import { knowledge } from '../the-rulebook.js'

const start = '2026-01-05T09:00:00.000Z'
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
  // FSRS-6 as published with ts-fsrs (its own tests): stability after a first answer of the fourth grade is 8.2956
  // days, and at the wanted recall of 9 in 10 the interval is the stability, in whole days: 8
  const sure = (cause: string, n: number): Result =>
    found(n, {
      exercise: `exercise-${cause}`,
      causes: [cause],
      spread: { points: { [cause]: 100 }, other: 0 },
    })

  it('soonest first; what is past is due', () => {
    const results = [sure('a', 3), sure('b', 0)]
    expect(comingBack(results, day(start, 3))).toEqual([
      { kind: 'tiny', causes: ['b'], isDue: false, due: day(start, 8) },
      { kind: 'tiny', causes: ['a'], isDue: false, due: day(start, 11) },
    ])
    expect(comingBack(results, day(start, 8.5))).toMatchObject([
      { causes: ['b'], isDue: true },
      { causes: ['a'], isDue: false },
    ])
  })
})
