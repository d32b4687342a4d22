/** Sums, ways and figures of the comparison in words. */
import type { Currency } from '../../../shared/figures.js'
import type { Turned } from '../../decision/break-even.js'
import type { SwitchName } from '../../decision/case-flips.js'
import type { Way } from '../../decision/options.js'
import { aboutMoneyIn } from '../layout/money.js'

/** As an order, as what is done, and as what wins. */
export const wayWords: Readonly<
  Record<
    Way,
    { readonly order: string; readonly short: string; readonly doing: string; readonly wins: string }
  >
> = {
  'mend-here': {
    order: 'Mend it here',
    short: 'Here',
    doing: 'mending here',
    wins: 'Mending here wins',
  },
  'send-in': { order: 'Send it in', short: 'Sent in', doing: 'sending in', wins: 'Sending in wins' },
  replace: { order: 'Replace it', short: 'New', doing: 'a new one', wins: 'Replacing wins' },
}

/** "€21", "€0.50", "nothing": an expected sum in minor units, rounded once, here. */
export function sum(minor: number, currency: Currency): string {
  return aboutMoneyIn(minor / 10 ** currency.digits, currency).replace('about ', '')
}

/** "about €21", "nothing". */
export function about(minor: number, currency: Currency): string {
  return aboutMoneyIn(minor / 10 ** currency.digits, currency)
}

/** "the same day", "about 3 days": expected days until there is a tool again. */
export function dayWords(count: number): string {
  if (count < 0.5) return 'the same day'
  if (count < 1.5) return 'about a day'
  return `about ${Math.round(count)} days`
}

/** "2 years", "half a year", "a year". */
export function yearWords(count: number): string {
  if (count === 0.5) return 'half a year'
  if (count === 1) return 'a year'
  return `${Math.round(count * 10) / 10} years`
}

/** What a figure must come to: `value` is in words already, `more` tells which side. */
const conditions: Readonly<Record<Turned, (value: string, more: boolean) => string>> = {
  minute: (value, more) => `a minute at the bench costs ${value} or ${side(more)}`,
  fee: (value, more) => `the fee is ${value} or ${side(more)}`,
  inspection: (value, more) => `a look in vain costs ${value} or ${side(more)}`,
  carriage: (value, more) => `carriage both ways is ${value} or ${side(more)}`,
  serviceMends: (value, more) => `${value} or ${side(more, 'fewer')} come back mended`,
  daysAway: (value, more) => `it is away ${value} or ${side(more)}`,
  dayWithout: (value, more) => `a day without it costs ${value} or ${side(more)}`,
  partDays: (value, more) => `a part takes ${value} or ${side(more)}`,
  newPrice: (value, more) => `a new one costs ${value} or ${side(more)}`,
  newDays: (value, more) => `a new one takes ${value} or ${side(more)} to come`,
  newLife: (value, more) => `a new one serves ${value} or ${side(more)}`,
  newUpkeep: (value, more) => `a new one’s upkeep is ${value} a year or ${side(more)}`,
  age: (value, more) => `it is ${value} old or ${more ? 'older' : 'younger'}`,
  upkeep: (value, more) => `this one’s upkeep is ${value} a year or ${side(more)}`,
  interest: (value, more) => `interest is ${value} or ${side(more)}`,
  feeLow: (value, more) => `the fee is at least ${value} or ${side(more)}`,
  feeHigh: (value, more) => `the fee is at most ${value} or ${side(more)}`,
  daysAwayLow: (value, more) => `it is away at least ${value} or ${side(more)}`,
  daysAwayHigh: (value, more) => `it is away at most ${value} or ${side(more)}`,
  motorFaultsThisYear: (value, more) => `its motor failed ${value} times this year or ${side(more)}`,
}

const side = (more: boolean, less = 'less'): string => (more ? 'more' : less)

/** "the fee is €38 or less". */
export const conditionWords = (figure: Turned, value: string, more: boolean): string =>
  conditions[figure](value, more)

/** What a figure is called in a row of those that change nothing. */
export const turnedNames: Readonly<Partial<Record<Turned, string>>> = {
  minute: 'a minute at the bench',
  fee: 'the fee',
  inspection: 'a look in vain',
  carriage: 'carriage',
  serviceMends: 'how many come back mended',
  daysAway: 'the days away',
  dayWithout: 'a day without it',
  partDays: 'the days for a part',
  newPrice: 'the price of a new one',
  newDays: 'the days until a new one is here',
  newLife: 'the life of a new one',
  newUpkeep: 'the upkeep of a new one',
  age: 'its age',
  upkeep: 'its upkeep',
  interest: 'interest',
}

/** A figure that is told otherwise, in words: what it would have to be. */
export function switchWords(figure: SwitchName, told: boolean | number | string): string {
  switch (figure) {
    case 'hasSpare':
      return told ? 'a spare stands in meanwhile' : 'no spare stands in'
    case 'inWarranty':
      return told ? 'it is in warranty' : 'the warranty is over'
    case 'partsToBeHad':
      return told ? 'its parts can be had' : 'its parts can no longer be had'
    case 'canSafetyTest':
      return told
        ? 'a competent hand here opens mains tools and tests their safety afterwards'
        : 'nobody here tests safety'
    case 'motorFaultsThisYear':
      return told === 0 ? 'its motor has not failed this year' : 'its motor has failed this year already'
    case 'skill':
      return 'somebody else works at the bench'
  }
}
