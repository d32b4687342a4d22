/**
 * Due days do not drift. Clock changes: United States, Energy Policy Act 2005 (second Sunday of March, first of
 * November); European Union, Directive 2000/84/EC (last Sundays of March and October); Phoenix has none. Days of a month
 * past its end: RFC 5545 names no rule for "the 31st" in a calendar of care; the last day of the month is our own.
 */
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import type { Rhythm } from '../../server/care/rhythm.js'
import { dayIn, daysBetween, dueAfter, onGrid, plusDays, rhythmOf } from '../../server/care/rhythm.js'

const london = 'Europe/London'
const monthly: Rhythm = { every: 'months', count: 1 }

describe('clock changes', () => {
  it.each([
    [
      'America/New_York',
      '2024-03-10 2024-11-03 2025-03-09 2025-11-02 2026-03-08 2026-11-01 2027-03-14 2027-11-07',
    ],
    [london, '2024-03-31 2024-10-27 2025-03-30 2025-10-26 2026-03-29 2026-10-25 2027-03-28 2027-10-31'],
    [
      'Europe/Berlin',
      '2024-03-31 2024-10-27 2025-03-30 2025-10-26 2026-03-29 2026-10-25 2027-03-28 2027-10-31',
    ],
    [
      'America/Phoenix',
      '2024-04-01 2024-10-01 2025-04-01 2025-10-01 2026-04-01 2026-10-01 2027-04-01 2027-10-01',
    ],
  ])('in %s', (zone, days) => {
    const grid = { rhythm: rhythmOf(182), anchor: '2024-01-01', zone }
    const found: string[] = []
    for (let day = '2024-01-01'; found.length < 8; day = plusDays(found.at(-1)!, 1))
      found.push(onGrid(grid, day))
    expect(found.join(' ')).toBe(days)
  })

  it('leave the day of the shop as it is: a minute before and after midnight of its own clock', () => {
    expect(dayIn('America/New_York', '2026-03-08T04:59:00Z')).toBe('2026-03-07')
    expect(dayIn('America/New_York', '2026-03-08T05:01:00Z')).toBe('2026-03-08')
    expect(dayIn('America/New_York', '2026-03-09T03:59:00Z')).toBe('2026-03-08')
    expect(dayIn('America/New_York', '2026-03-09T04:01:00Z')).toBe('2026-03-09')
  })
})

describe('the grid', () => {
  const day = fc.integer({ min: 0, max: 9000 }).map((k) => plusDays('2020-01-01', k))
  const rhythm = fc.constantFrom(7, 14, 30, 61, 91, 182, 365).map(rhythmOf)

  it('done on every day it is due, a monthly task keeps to its day through short months', () => {
    const grid = { rhythm: monthly, anchor: '2024-01-31', zone: london }
    const days = ['2024-01-31']
    while (days.length < 14) days.push(dueAfter(grid, days.at(-1)!))
    expect(days.map((it) => it.slice(5)).join(' ')).toBe(
      '01-31 02-29 03-31 04-30 05-31 06-30 07-31 08-31 09-30 10-31 11-30 12-31 01-31 02-28',
    )
  })

  it('never drifts: done anywhere near each due day, the next one lies on the grid of the first', () => {
    fc.assert(
      fc.property(
        rhythm,
        day,
        fc.array(fc.double({ min: -0.4, max: 0.4, noNaN: true }), { maxLength: 24 }),
        (it, anchor, offs) => {
          const grid = { rhythm: it, anchor, zone: london }
          let exact = anchor
          let due = dueAfter(grid, anchor)
          for (const off of offs) {
            exact = onGrid(grid, plusDays(exact, 1))
            if (it.every !== 'clock-change') expect(due).toBe(exact)
            expect(onGrid(grid, due)).toBe(due)
            const half = Math.floor(daysBetween(due, onGrid(grid, plusDays(due, 1))) / 2)
            due = dueAfter(grid, plusDays(due, Math.trunc(off * half)))
          }
        },
      ),
      { numRuns: 60 },
    )
  })

  it('is the same from wherever one looks: the first day on or after', () => {
    fc.assert(
      fc.property(rhythm, day, day, (it, anchor, from) => {
        const grid = { rhythm: it, anchor, zone: london }
        const found = onGrid(grid, from)
        expect(found >= from).toBe(true)
        expect(onGrid(grid, found)).toBe(found)
        // every day between leads to the same one, so none of the grid was passed over
        for (let on = from; on < found; on = plusDays(on, 3)) expect(onGrid(grid, on)).toBe(found)
      }),
      { numRuns: 60 },
    )
  })

  it('is never more than one and a half rounds away, nor less than half a one', () => {
    fc.assert(
      fc.property(rhythm, day, day, (it, anchor, last) => {
        const away = daysBetween(last, dueAfter({ rhythm: it, anchor, zone: london }, last))
        const length =
          it.every === 'clock-change' ? 217 : { days: 1, weeks: 7, months: 31 }[it.every] * it.count
        expect(away).toBeGreaterThanOrEqual(Math.floor(length / 2) - 20)
        expect(away).toBeLessThanOrEqual(Math.ceil(length * 1.5) + 1)
      }),
    )
  })
})
