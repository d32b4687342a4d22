/** Sums, ways and figures of the comparison in words. */
import type { Currency } from '../../../shared/figures.js'
import type { Turned } from '../../decision/dials.js'
import { isAmount } from '../../decision/dials.js'
import type { Way } from '../../decision/options.js'
import { aboutMoneyIn, moneyIn } from '../layout/money.js'
import { days, inHundred } from '../layout/words.js'

/** As an order, as a column, as what is done, and as what wins. */
export const wayWords: Readonly<
  Record<
    Way,
    { readonly order: string; readonly short: string; readonly doing: string; readonly wins: string }
  >
> = {
  'mend-here': {
    order: 'Fix it here',
    short: 'Here',
    doing: 'fixing it here',
    wins: 'Fixing here is better',
  },
  'send-in': { order: 'Send it in', short: 'Sent in', doing: 'sending it in', wins: 'Sending in is better' },
  replace: { order: 'Buy new', short: 'New', doing: 'a new one', wins: 'A new one is better' },
}

/** "€21", "€0.50", "nothing": an expected sum in minor units, rounded once, here. */
export function sum(minor: number, currency: Currency): string {
  return about(minor, currency).replace('about ', '')
}

/** "about €21", "nothing". */
export function about(minor: number, currency: Currency): string {
  return aboutMoneyIn(minor / 10 ** currency.digits, currency)
}

/** "today", "in about 3 days": expected days until there is a tool again. */
export function dayWords(count: number): string {
  if (count < 0.5) return 'today'
  return count < 1.5 ? 'tomorrow' : `in about ${Math.round(count)} days`
}

/** "2 years", "half a year", "a year". */
export function yearWords(count: number): string {
  const halves = Math.round(count * 2) / 2
  if (halves <= 0.5) return 'half a year'
  return halves === 1 ? 'a year' : `${halves} years`
}

/** What a figure must come to: `value` is in words already, `more` tells which side. */
const conditions: Readonly<Record<Turned, (value: string, more: boolean) => string>> = {
  minute: (value, more) => `a minute here costs ${value} or ${side(more)}`,
  fee: (value, more) => `the fee is ${value} or ${side(more)}`,
  carriage: (value, more) => `carriage is ${value} or ${side(more)}`,
  serviceMends: (value, more) => `${value} or ${side(more, 'fewer')} come back fixed`,
  daysAway: (value, more) => `it is away ${value} or ${side(more)}`,
  dayWithout: (value, more) => `a day without it costs ${value} or ${side(more)}`,
  partDays: (value, more) => `the part takes ${value} or ${side(more)}`,
  newPrice: (value, more) => `a new one costs ${value} or ${side(more)}`,
  newDays: (value, more) => `a new one takes ${value} or ${side(more)}`,
  newLife: (value, more) => `a new one lasts ${value} or ${side(more)}`,
  age: (value, more) => `it is ${value} old or ${more ? 'older' : 'younger'}`,
}

const side = (more: boolean, less = 'less'): string => (more ? 'more' : less)

/** "the fee is €38 or less". */
export const conditionWords = (figure: Turned, value: string, more: boolean): string =>
  conditions[figure](value, more)

/** A value of a figure in its unit. */
export function turnedWords(figure: Turned, value: number, currency: Currency): string {
  if (isAmount(figure)) return moneyIn(value / 10 ** currency.digits, currency)
  if (figure === 'serviceMends') return inHundred(value)
  return figure === 'newLife' || figure === 'age' ? yearWords(value) : days(value)
}
