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
