/** A tool's plate and days of the shop's calendar in words. */
import type { Tool } from '../../../shared/tool.js'

/** "2 Mar 2026" from 2026-03-02. */
export const dayWords = (day: string): string => calendar.format(Date.parse(`${day}T12:00:00Z`))

// Made once: to make one takes longer than the rest of a line.
const calendar = new Intl.DateTimeFormat('en-GB', {
  day: 'numeric',
  month: 'short',
  year: 'numeric',
  timeZone: 'UTC',
})

/** "220-240 V, 50 Hz, 45 W", as far as it is known; else empty. */
export const plateWords = ({ details: { volts, hertz, watts } }: Pick<Tool, 'details'>): string =>
  [volts && `${volts} V`, hertz && `${hertz} Hz`, watts && `${watts} W`].filter(Boolean).join(', ')
