/**
 * How often a task comes round, and when it is due next. Pure: days in, days out, all of the shop's calendar.
 *
 * Due days lie on a grid that is counted from one fixed day, never from the due day before, so they do not drift: a
 * task of the 31st comes on the last day of a short month and on the 31st again after it. Done a little early or late,
 * it counts for the day of the grid that it is nearest to.
 */
import { Temporal } from '@js-temporal/polyfill'
import { LRUCache } from 'lru-cache'

export type Rhythm =
  | { readonly every: 'days' | 'weeks' | 'months'; readonly count: number }
  /** spring and autumn, when the clocks of the shop's zone change; the first of April and October where they do not */
  | { readonly every: 'clock-change' }

/** Days that stand for a rhythm of the calendar; any other number is just so many days. */
const months: ReadonlyMap<number, number> = new Map([
  [30, 1],
  [31, 1],
  [61, 2],
  [91, 3],
  [92, 3],
  [122, 4],
  [365, 12],
  [366, 12],
  [730, 24],
])

/** @param everyDays a whole number of days, from 1 */
export function rhythmOf(everyDays: number): Rhythm {
  if (everyDays === 182 || everyDays === 183) return { every: 'clock-change' }
  const count = months.get(everyDays)
  if (count !== undefined) return { every: 'months', count }
  if (everyDays % 7 === 0 && everyDays < 60) return { every: 'weeks', count: everyDays / 7 }
  return { every: 'days', count: everyDays }
}

export interface Grid {
  readonly rhythm: Rhythm
  /** the day from which it is counted */
  readonly anchor: string
  readonly zone: string
}

/** The first day of the grid that is on `from` or after it. */
export function onGrid(grid: Grid, from: string): string {
  const start = Temporal.PlainDate.from(from)
  const { rhythm, anchor, zone } = grid
  if (rhythm.every === 'clock-change') return clockChange(start, zone).toString()
  const zero = Temporal.PlainDate.from(anchor)
  const step = (k: number) => zero.add({ [rhythm.every]: k * rhythm.count })
  const between = zero.until(start, { largestUnit: rhythm.every })
  let k = Math.floor(between[rhythm.every] / rhythm.count)
  // a month counts as over only on the anchor's day, so the guess may lie one step too early or too late
  while (Temporal.PlainDate.compare(step(k), start) >= 0) k--
  while (Temporal.PlainDate.compare(step(k), start) < 0) k++
  return step(k).toString()
}

/**
 * The day on which the task is due next: the first of the grid that lies more than half a round after it was done.
 *
 * @param last the day on which it was done last, or the tool was put on the list
 */
export function dueAfter(grid: Grid, last: string): string {
  const { rhythm, anchor, zone } = grid
  const count = rhythm.every === 'clock-change' ? zone : rhythm.count
  return remembered(`${rhythm.every} ${count} ${anchor} ${last}`, () => reckonedDue(grid, last))
}

/** The same days in give the same day out, however often a page asks: what was not asked for longest is forgotten. */
const daysKnown = new LRUCache<string, string>({ max: 10_000 })

function remembered(key: string, reckon: () => string): string {
  const known = daysKnown.get(key)
  if (known !== undefined) return known
  const day = reckon()
  daysKnown.set(key, day)
  return day
}

function reckonedDue(grid: Grid, last: string): string {
  const { rhythm } = grid
  if (rhythm.every === 'days') {
    // so many days after it was done: nothing to keep step with
    return plusDays(last, rhythm.count)
  }
  const half = Math.floor(lengthOf(rhythm) / 2)
  return onGrid(grid, plusDays(last, half))
}

/** About how many days one round takes. */
const lengthOf = (rhythm: Rhythm): number => {
  if (rhythm.every === 'clock-change') return 182
  return rhythm.count * { days: 1, weeks: 7, months: 30 }[rhythm.every]
}

/** The first day, from `start` on, on which the clocks of a zone change. */
function clockChange(start: Temporal.PlainDate, zone: string): Temporal.PlainDate {
  const before = start.toZonedDateTime({ timeZone: zone }).subtract({ nanoseconds: 1 })
  const next = before.getTimeZoneTransition('next')?.toPlainDate()
  // a zone that has given its changes up may still list one of long ago or far ahead
  if (next && start.until(next).days < 300) return next
  for (let year = start.year; ; year++)
    for (const month of [4, 10]) {
      const fixed = Temporal.PlainDate.from({ year, month, day: 1 })
      if (Temporal.PlainDate.compare(fixed, start) >= 0) return fixed
    }
}

/** The day that it is in a zone. @param instant ISO 8601, UTC */
export const dayIn = (zone: string, instant: string): string =>
  remembered(`${zone} ${instant}`, () =>
    Temporal.Instant.from(instant).toZonedDateTimeISO(zone).toPlainDate().toString(),
  )

const dayMs = 86_400_000

// Days as such know no clock, so plain sums do; a round of fifty tools makes thousands of them.
export const daysBetween = (from: string, to: string): number =>
  Math.round((Date.parse(to) - Date.parse(from)) / dayMs)

export const plusDays = (day: string, days: number): string =>
  new Date(Date.parse(day) + days * dayMs).toISOString().slice(0, 10)

export function isZone(name: string): boolean {
  try {
    Temporal.Instant.fromEpochMilliseconds(0).toZonedDateTimeISO(name)
    return true
  } catch {
    return false
  }
}
