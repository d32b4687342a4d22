/** The care of the months to come as a calendar feed, RFC 5545. Pure. */
import ical, { ICalEventTransparency } from 'ical-generator'
import type { Round } from './due.js'
import { dueAfter, onGrid, plusDays, rhythmOf } from './rhythm.js'

/** How far ahead a calendar looks. */
const daysAhead = 366
/** What comes round oftener would bury everything else in a calendar. */
const everyDaysFrom = 7

/**
 * One entry for a day and a task, with the tools in it; all-day entries, so that no clock change can move them.
 *
 * @param stamp when the feed was made, ISO 8601 UTC
 */
export function calendarOf({ care, today }: Round, zone: string, name: string, stamp: string): string {
  const entries = new Map<string, { day: string; task: string; name: string; tools: string[]; how: string }>()
  const end = plusDays(today, daysAhead)
  for (const { tool, task, everyDays, due } of care) {
    if (everyDays < everyDaysFrom) continue
    const rhythm = rhythmOf(everyDays)
    // late care stands on today; the days after it follow the rhythm, as if it were done then
    for (let day: string = due < today ? today : due, k = 0; day <= end && k < 60; k++) {
      const key = `${day} ${task.id}`
      const entry = entries.get(key) ?? {
        day,
        task: task.id,
        name: task.name,
        tools: [],
        how: task.how.join('\n'),
      }
      entry.tools.push(tool.name)
      entries.set(key, entry)
      const grid = { rhythm, anchor: everyDays >= 360 ? due : '2024-01-01', zone }
      const next = rhythm.every === 'days' ? dueAfter(grid, day) : onGrid(grid, plusDays(day, 1))
      day = next
    }
  }
  const calendar = ical({ name, prodId: { company: 'clipperwright', product: 'care', language: 'EN' } })
  for (const { day, task, name: summary, tools, how } of entries.values())
    calendar.createEvent({
      id: `${day}-${task}@clipperwright`,
      start: `${day}T00:00:00Z`,
      end: `${plusDays(day, 1)}T00:00:00Z`,
      allDay: true,
      stamp,
      summary: `${summary} (${tools.length})`,
      description: `${tools.join(', ')}\n\n${how}`,
      transparency: ICalEventTransparency.TRANSPARENT,
    })
  return calendar.toString()
}
