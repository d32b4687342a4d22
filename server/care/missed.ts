/** Rounds of care that passed without it. Pure, days of the shop's calendar. */
import { overdueFrom } from './due.js'
import { daysBetween, plusDays } from './rhythm.js'

/**
 * The days on which a task had to be done and was not, until it was overdue: from one day on which it was done to the
 * next, every further round that passed.
 *
 * @param everyDays days between, from 1
 * @param done      days on which it was done, earliest first
 * @param from      the day from which one looks, as if it had been done on it
 * @param wanted    was the tool there on that day, to be cared for?
 */
export function missedDays(
  everyDays: number,
  done: readonly string[],
  { from, today }: { readonly from: string; readonly today: string },
  wanted: (day: string) => boolean,
): string[] {
  const late = overdueFrom(everyDays)
  const points = [from, ...done.filter((day) => day > from), today]
  return points.slice(1).flatMap((next, k) => {
    const rounds = Math.floor((daysBetween(points[k]!, next) - late) / everyDays)
    return Array.from({ length: Math.max(0, rounds) }, (_, n) =>
      plusDays(points[k]!, (n + 1) * everyDays),
    ).filter(wanted)
  })
}
