/**
 * The one place where numbers become words. Pages hold counts of 100, minutes and money, never a
 * share with decimals: people reason better in counts (Gigerenzer & Hoffrage 1995).
 */
import type { Knowledge, Skill } from '../../../shared/knowledge.js'
import type { Answer } from '../../../shared/situation.js'
import type { CaseState } from '../../../shared/case.js'

/** A whole count of 100 for drawings and dots; `share` in [0, 1]. */
export function countOf100(share: number): number {
  return Math.round(Math.min(1, Math.max(0, share)) * 100)
}

/** "62 in 100"; the ends keep their doubt, because no answer makes a cause certain. */
export function inHundred(share: number): string {
  if (share < 0.005) return 'fewer than 1 in 100'
  if (share >= 0.995) return 'more than 99 in 100'
  return `${countOf100(share)} in 100`
}

/** "87 in 1000", for how common a cause is before anything is known; `share` in [0, 1]. */
export function inThousand(share: number): string {
  const count = Math.round(share * 1000)
  return count < 1 ? 'fewer than 1 in 1000' : `${count} in 1000`
}

/** "about 4 minutes"; minutes of a trained hand. */
export function minutes(count: number): string {
  if (count < 0.75) return 'under a minute'
  if (count < 1.5) return 'about a minute'
  if (count < 75) return `about ${Math.round(count)} minutes`
  const halves = Math.round(count / 30) / 2
  const whole = Math.floor(halves)
  return `about ${whole === halves ? whole : `${whole}½`} hours`.replace('about 1 hours', 'about an hour')
}

/** "3.20", for the rulebook, which knows no currency (a case has one: `money.ts`); whole sums lose their zeros. */
export function money(amount: number): string {
  const rounded = amount.toFixed(2)
  return rounded.endsWith('.00') ? rounded.slice(0, -3) : rounded
}

/** "nothing", "about 0.50", "about 36": a sum that was estimated, no finer than the estimate is. */
export function aboutMoney(amount: number): string {
  if (amount < 0.05) return 'nothing'
  if (amount < 10) return `about ${money(Math.round(amount * 10) / 10)}`
  return `about ${Math.round(amount)}`
}

/** "7 days", "a day": whole days, as they are lived. */
export function days(count: number): string {
  const whole = count > 0 ? Math.max(1, Math.round(count)) : 0
  if (whole === 0) return 'no day'
  return whole === 1 ? 'a day' : `${whole} days`
}

/**
 * How strongly one answer speaks, from its weight of evidence in decibans (Good 1950). One deciban is
 * about the least change in belief that a person notices; ten make the odds ten times as high.
 */
export function strength(decibans: number): string {
  const weight = Math.abs(decibans)
  const side = decibans < 0 ? 'against' : 'for'
  if (weight < 1) return `hardly speaks ${side}`
  if (weight < 3) return `speaks a little ${side}`
  if (weight < 7) return `speaks ${side}`
  if (weight < 13) return `speaks strongly ${side}`
  return `speaks very strongly ${side}`
}

const skills = {
  S1: 'any barber',
  S2: 'a trained apprentice, outside covers only',
  S3: 'a competent bench hand',
  S4: 'a specialist',
} as const satisfies Record<Skill, string>

/** Who may do it. */
export function skillWords(skill: Skill): string {
  return skills[skill]
}

const standings = {
  published: 'published',
  'common-practice': 'common practice',
  estimate: 'an estimate',
  memory: 'from memory, to be checked',
} as const satisfies Record<Knowledge['sources'][string]['standing'], string>

/** How far a source can be trusted. */
export function standingWords(standing: Knowledge['sources'][string]['standing']): string {
  return standings[standing]
}

const states = {
  'on-the-bench': 'On the bench',
  'running-again': 'Running again',
  'boxed-for-service': 'Boxed for service',
  'set-aside': 'Set aside',
} as const satisfies Record<CaseState, string>

/** The state of a case as written on its tag. */
export function stateWords(state: CaseState): string {
  return states[state]
}

const units = {
  mm: { short: 'mm', long: 'millimetres' },
  degC: { short: '°C', long: 'degrees Celsius' },
  min: { short: 'min', long: 'minutes' },
  ohm: { short: 'Ω', long: 'ohms' },
  V: { short: 'V', long: 'volts' },
  W: { short: 'W', long: 'watts' },
  percent: { short: '%', long: 'percent' },
  'per-minute': { short: 'per minute', long: 'times a minute' },
} as const

export type Unit = keyof typeof units

/** A unit beside a field ("mm") and read aloud ("millimetres"). */
export function unitWords(unit: Unit): { readonly short: string; readonly long: string } {
  return units[unit]
}

/** "Yes", "No", "Can't tell" or "9.5 mm". */
export function answerWords(answer: Answer, unit?: Unit): string {
  if (answer === 'yes') return 'Yes'
  if (answer === 'no') return 'No'
  if (answer === 'cant-tell') return 'Can’t tell'
  return unit ? `${answer} ${units[unit].short}` : String(answer)
}

/** "the cord, the plug and the switch". */
export const listWords = (items: readonly string[]): string => lists.format(items)

/** "1 case", "5 cases". */
export const counted = (count: number, one: string, more = `${one}s`): string =>
  `${count} ${plurals.select(count) === 'one' ? one : more}`

/** "once", "twice", "5 times". */
export const timesWords = (count: number): string =>
  count === 1 ? 'once' : count === 2 ? 'twice' : `${count} times`

/** "14:05", or with its date when that is another day than `today`'s; by the clock of the shop. */
export function clockWords(when: Date, today: Date): string {
  if (when.toDateString() !== today.toDateString()) return instantWords(when.toISOString())
  return clock.format(when)
}

/** "25 Nov 2025, 15:26" from an ISO 8601 instant, by the clock of the shop that the server stands in. */
export function instantWords(instant: string): string {
  const when = new Date(instant)
  return `${calendar.format(when)}, ${clock.format(when)}`
}

// Made once: to make one takes longer than the rest of a line of a list.
const lists = new Intl.ListFormat('en-GB')
const plurals = new Intl.PluralRules('en-GB')
const calendar = new Intl.DateTimeFormat('en-GB', { day: 'numeric', month: 'short', year: 'numeric' })
const clock = new Intl.DateTimeFormat('en-GB', { hour: '2-digit', minute: '2-digit' })
