/** A figure and its value in words, for what was said in a case. */
import type { CaseEvent } from '../../../shared/case.js'
import type { Currency, FigureName, SomeFigures } from '../../../shared/figures.js'
import type { Skill } from '../../../shared/knowledge.js'
import { amountNames } from '../../decision/figure-sorts.js'
import { moneyIn } from '../layout/money.js'
import { days, listWords, skillWords } from '../layout/words.js'

const names: Readonly<Record<FigureName, string>> = {
  minute: 'a minute at the bench',
  skill: 'who works at the bench',
  canSafetyTest: 'safety is tested here',
  feeLow: 'fee of a service, at the least',
  feeHigh: 'fee of a service, at the most',
  inspection: 'fee if it cannot be fixed',
  carriage: 'carriage both ways',
  serviceMends: 'comes back fixed',
  daysAwayLow: 'away, at the least',
  daysAwayHigh: 'away, at the most',
  hasSpare: 'a spare stands in',
  dayWithout: 'a day without it',
  comesBack: 'comes back once more',
  loanDay: 'a loan a day',
  teaches: 'what is learned by fixing it',
  inWarranty: 'in warranty',
  openingVoids: 'opening it ends the warranty',
  partsToBeHad: 'parts can be had',
  partDays: 'until a part is here',
  newPrice: 'a new one',
  newDays: 'until a new one is here',
  newLife: 'a new one serves',
  resale: 'what the old one brings',
  disposal: 'to be rid of the old one',
  newUpkeep: 'upkeep of a new one a year',
  age: 'age',
  upkeep: 'its upkeep a year',
  spentByYear: 'what it has cost, year by year',
  motorFaultsThisYear: 'motor faults in the last year',
  limitSet: 'limits of its safety test',
  mains: 'hertz of the mains',
  interest: 'interest a year',
}

/** "carriage both ways, age", of names as a history keeps them. */
export const figureNamesWords = (kept: string): string =>
  kept
    .split(' ')
    .map((name) => names[name as FigureName] ?? name)
    .join(', ')

/** "Carriage both ways €8; age 3 years. Given back to the shop’s: a new one." */
export function figuredWords(
  { figures, forget }: Extract<CaseEvent, { type: 'figured' }>,
  currency: Currency,
): string {
  const said = Object.entries(figures).map(
    ([name, value]) => `${names[name as FigureName]} ${valueWords(name as FigureName, value, currency)}`,
  )
  const back =
    forget.length === 0 ? '' : `given back to the shop’s: ${listWords(forget.map((name) => names[name]))}`
  return [said.join('; '), back]
    .filter((words) => words !== '')
    .map((words) => `${words.charAt(0).toUpperCase()}${words.slice(1)}.`)
    .join(' ')
}

function valueWords(name: FigureName, value: SomeFigures[FigureName], currency: Currency): string {
  if (value === null || value === undefined) return 'not known'
  if (typeof value === 'boolean') return value ? 'yes' : 'no'
  if (Array.isArray(value)) return listWords(value.map((sum) => inMajor(sum, currency)))
  if (name === 'skill') return skillWords(value as Skill)
  if (typeof value === 'string') return value
  if (amountNames.some((it) => it === name)) return inMajor(value, currency)
  if (name.startsWith('days') || name.endsWith('Days')) return days(value)
  if (name === 'age' || name === 'newLife') return `${value} years`
  if (name === 'interest' || name === 'serviceMends') return `${Math.round(value * 1000) / 10} in 100`
  return String(value)
}

const inMajor = (minor: number, currency: Currency): string =>
  moneyIn(minor / 10 ** currency.digits, currency)
