/** Care by moves, rounds that were missed, and care that nobody does; days by hand from a calendar of 2026. */
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { leftUndone } from '../../server/care/left.js'
import { missedDays } from '../../server/care/missed.js'
import { plusDays } from '../../server/care/rhythm.js'
import { roundOf } from '../../server/care/due.js'
import { storageDue } from '../../server/care/storage.js'
import type { ToolMove } from '../../shared/tool.js'
import { knowledge } from '../the-rulebook.js'

const zone = 'Europe/London'
const move = (place: ToolMove['place'], day: string): ToolMove => ({ place, at: `${day}T10:00:00Z` })

// Common practice, no source: before it rests clean and oil; after a month or more, turn it by hand before the first power.
describe('storage care', () => {
  const bought = move('in-use', '2026-01-05')
  it('is due on the day a tool is laid by, until it is done', () => {
    const moves = [bought, move('spare', '2026-03-02')]
    expect(storageDue({}, 'spare', moves, zone, null)).toBe('2026-03-02')
    expect(storageDue({}, 'spare', moves, zone, '2026-03-01')).toBe('2026-03-02')
    expect(storageDue({}, 'spare', moves, zone, '2026-03-02')).toBeNull()
  })

  it('wakes a battery while it rests', () => {
    const moves = [bought, move('spare', '2026-03-02')]
    expect(storageDue({ wakeDays: 75 }, 'spare', moves, zone, '2026-03-03')).toBe('2026-05-17')
  })

  it('is due on the day it comes back, where it rested a month or more', () => {
    const rested = (back: string) => [bought, move('spare', '2026-03-02'), move('in-use', back)]
    expect(storageDue({}, 'in-use', rested('2026-04-02'), zone, '2026-03-02')).toBe('2026-04-02')
    expect(storageDue({}, 'in-use', rested('2026-03-12'), zone, '2026-03-02')).toBeNull()
    expect(storageDue({}, 'in-use', rested('2026-04-02'), zone, '2026-04-02')).toBeNull()
  })

  it('asks nothing of a tool that was put on the list as it is', () => {
    expect(storageDue({}, 'spare', [move('spare', '2026-01-05')], zone, null)).toBeNull()
    expect(storageDue({}, 'in-use', [bought], zone, null)).toBeNull()
  })
})

describe('missed rounds', () => {
  const always = () => true
  it('are those that passed until somebody did it: a month’s care in January, then in April', () => {
    const span = { from: '2026-01-01', today: '2026-04-02' }
    expect(missedDays(30, ['2026-01-01', '2026-04-01'], span, always)).toEqual(['2026-01-31', '2026-03-02'])
    expect(missedDays(30, ['2026-01-01', '2026-04-01'], span, (day) => day > '2026-02')).toEqual([
      '2026-03-02',
    ])
  })

  it('are none of a daily job in a shop that closes on Sundays and Mondays', () => {
    const days = Array.from({ length: 60 }, (_, k) => plusDays('2026-03-03', k)).filter(
      (day) => ![0, 1].includes(new Date(day).getUTCDay()),
    )
    expect(missedDays(1, days, { from: '2026-03-03', today: days.at(-1)! }, always)).toEqual([])
  })

  it('are none where each was done in time, and all but one where none ever was', () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 200 }), fc.integer({ min: 1, max: 30 }), (every, rounds) => {
        const day = (k: number) => plusDays('2026-01-01', k * every)
        const span = { from: day(0), today: day(rounds) }
        const done = Array.from({ length: rounds }, (_, k) => day(k))
        expect(missedDays(every, done, span, always)).toEqual([])
        expect(missedDays(every, [], span, always).length).toBeLessThan(rounds)
      }),
    )
  })
})

it('what nobody does is named where it is far overdue on every tool, and not where one of them had it', () => {
  const tool = (id: string) => ({
    id,
    name: id,
    kind: 'universal-motor',
    place: 'in-use' as const,
    details: {},
    addedAt: '2026-01-05T10:00:00Z',
  })
  const habits = { zone, everyDays: {}, calendarKey: null, learns: true }
  const leftWith = (...done: [string, string][]) => {
    const last = new Map(done.map(([id, day]) => [id, new Map([['weekly-cord-feel', day]])]))
    const round = roundOf(knowledge, habits, ['a', 'b'].map(tool), last, new Map(), '2026-03-02T10:00:00Z')
    return leftUndone(round).find(({ task }) => task.id === 'weekly-cord-feel')
  }
  expect(leftWith()).toMatchObject({ tools: 2, last: null })
  expect(leftWith(['a', '2026-01-20'])).toMatchObject({ last: '2026-01-20' })
  expect(leftWith(['a', '2026-02-27'])).toBeUndefined()
})
