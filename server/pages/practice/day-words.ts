/** Days, as one speaks of them. */

const aDay = 86_400_000

/** "today", "yesterday", "5 days ago", "3 weeks ago", from one ISO 8601 instant to a later one. */
export function agoWords(then: string, now: string): string {
  const days = Math.round((midnight(now) - midnight(then)) / aDay)
  if (days <= 0) return 'today'
  if (days === 1) return 'yesterday'
  return `${longWords(days)} ago`
}

/** "5 days", "3 weeks", "2 months": rounded as far as it no longer matters. */
export function longWords(days: number): string {
  if (days < 14) return days === 1 ? '1 day' : `${days} days`
  if (days < 60) return `${Math.round(days / 7)} weeks`
  return days < 700 ? `${Math.round(days / 30.4)} months` : `${Math.round(days / 365)} years`
}

/** Whole days that are still to go; 0 in the course of a day, and for what is past. */
export const daysUntil = (then: string, now: string): number =>
  Math.max(0, Math.floor((Date.parse(then) - Date.parse(now)) / aDay))

/** By the clock of the shop. */
const midnight = (instant: string): number => new Date(instant).setHours(0, 0, 0, 0)
