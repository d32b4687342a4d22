/** Days of practice in a row, up to the latest, on which nothing hurt. */
import type { Result } from './result.js'

/** @returns 0 where the latest day had a safety mistake, or there was none yet */
export function safeDays(results: readonly Pick<Result, 'at' | 'slips'>[]): number {
  const days = new Map<string, boolean>()
  for (const { at, slips } of results) {
    const day = at.slice(0, 10)
    days.set(day, (days.get(day) ?? true) && slips.length === 0)
  }
  const latestFirst = [...days].sort(([a], [b]) => (a < b ? 1 : -1))
  const broken = latestFirst.findIndex(([, safe]) => !safe)
  return broken < 0 ? latestFirst.length : broken
}

/** Minutes that an exercise takes before anybody has been timed, with its debrief: what the first levels are made for. */
const usualMinutes = 5
/** Longer than this somebody laid it aside in between. */
const mostMinutes = 20

/** The median of one's own, in whole minutes; the usual where too few are known. */
export function minutesEach(
  exercises: readonly { readonly begunAt: string; readonly changedAt: string; readonly outcome: unknown }[],
): number {
  const taken = exercises
    .filter(({ outcome }) => outcome !== null)
    .map(({ begunAt, changedAt }) => (Date.parse(changedAt) - Date.parse(begunAt)) / 60_000)
    .filter((it) => it >= 1 && it <= mostMinutes)
    .sort((a, b) => a - b)
  return taken.length < 3 ? usualMinutes : Math.round(taken[Math.floor(taken.length / 2)]!)
}
