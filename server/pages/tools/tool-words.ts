/** Days of the shop's calendar in words. */

/** "2 Mar 2026" from 2026-03-02. */
export const dayWords = (day: string): string => calendar.format(Date.parse(`${day}T12:00:00Z`))

// Made once: to make one takes longer than the rest of a line.
const calendar = new Intl.DateTimeFormat('en-GB', {
  day: 'numeric',
  month: 'short',
  year: 'numeric',
  timeZone: 'UTC',
})
