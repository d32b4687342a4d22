/** What each open way is made of, how long it takes, what can go wrong, which fixes are meant. */
import type { CaseComparison } from '../../decision/case-comparison.js'
import type { Makeup } from '../../decision/course.js'
import { longRun } from '../../decision/long-run.js'
import type { Option, View, Way } from '../../decision/options.js'
import { dayCost, warrantyHolds, yearsLeft } from '../../decision/prices.js'
import { moneyIn } from '../layout/money.js'
import type { OnBench } from '../../bench/on-bench.js'
import { countOf100 } from '../layout/words.js'
import type { MeantFix } from './worth-fixes.js'
import { meantFixes } from './worth-fixes.js'
import { about, dayWords, sum, wayWords, yearWords } from './worth-words.js'

/** One line of what a cost is made of, with the figures that it comes from. */
interface MakeupLine {
  readonly name: string
  readonly words: string
  readonly sum: string
  readonly figures: readonly FigureLink[]
}

interface FigureLink {
  readonly name: string
  readonly href: string
}

export interface OptionView {
  readonly way: Way
  readonly name: string
  readonly cost: string
  readonly makeup: readonly MakeupLine[]
  /** more lines: when, by the year, what can go wrong, how replacing is counted */
  readonly more: readonly string[]
  readonly fixes: readonly MeantFix[]
}

/** A way that a rule closes: its reason, and no sum, for it cannot be had. */
export interface ClosedView {
  readonly way: Way
  readonly name: string
  readonly because: string
}

const link = (name: string, id: string): FigureLink => ({ name, href: `#figure-${id}` })
const links = {
  minute: link('a minute', 'minute'),
  partDays: link('days for a part', 'partDays'),
  day: link('a day without', 'dayWithout'),
  away: link('days away', 'daysAwayLow'),
  fee: link('fee', 'feeLow'),
  carriage: link('carriage', 'carriage'),
  mends: link('what comes back fixed', 'serviceMends'),
  price: link('price', 'newPrice'),
  life: link('its life', 'newLife'),
  age: link('age', 'age'),
  newDays: link('days until it is here', 'newDays'),
  teaches: link('learning', 'teaches'),
} as const

export function optionViews(on: OnBench, comparison: CaseComparison): readonly OptionView[] {
  const view: View = {
    figures: on.inForce.figures,
    opened: on.opened,
    closed: new Set(comparison.barred.keys()),
  }
  return comparison.options
    .filter(({ way }) => !comparison.barred.has(way))
    .map((option) => ({
      way: option.way,
      name: wayWords[option.way].order,
      cost: about(option.cost, on.currency),
      makeup: makeupLines(on, view, option),
      more: moreLines(on, view, option),
      fixes: option.way === 'mend-here' ? meantFixes(on, comparison.trouble, view) : [],
    }))
}

export const closedViews = ({ options, barred }: CaseComparison): readonly ClosedView[] =>
  options.flatMap(({ way }) => {
    const rule = barred.get(way)
    return rule ? [{ way, name: wayWords[way].order, because: rule.name }] : []
  })

function makeupLines({ currency }: OnBench, view: View, { way, makeup }: Option): readonly MakeupLine[] {
  const { figures } = view
  const rate = moneyIn(figures.minute / 10 ** currency.digits, currency)
  const day = sum(dayCost(figures), currency)
  const lines: Record<keyof Makeup, Omit<MakeupLine, 'sum'>> = {
    asking: {
      name: 'Not knowing the fault',
      words: 'looks still to come, and fixes that turn out to be for another fault',
      figures: [links.minute],
    },
    work: { name: 'Work', words: `at ${rate} a minute`, figures: [links.minute] },
    parts: { name: 'Parts', words: 'of the fixes below, by how often each is meant', figures: [] },
    waiting: {
      name: 'Days without it',
      words: `at ${day} a day`,
      figures: [
        way === 'replace' ? links.newDays : way === 'send-in' ? links.away : links.partDays,
        links.day,
      ],
    },
    fee: {
      name: 'Fee and carriage',
      words: feeWords(view, currency, way),
      figures: [links.fee, links.carriage, links.mends],
    },
    replacing: {
      name: way === 'replace' ? 'A new one' : 'A new one after all',
      words:
        way === 'replace'
          ? 'the share of it that is used up while this one would still run'
          : 'the same, where it is not fixed',
      figures: [links.price, links.life, links.age],
    },
    teaching: { name: 'What is learned by it', words: 'taken off', figures: [links.teaches] },
  }
  return (Object.keys(lines) as (keyof Makeup)[])
    .filter((key) => Math.abs(makeup[key]) >= 0.5)
    .map((key) => ({ ...lines[key], sum: sum(Math.abs(makeup[key]), currency) }))
}

function feeWords({ figures, opened }: View, currency: OnBench['currency'], way: Way): string {
  const when = way === 'mend-here' ? 'where it is sent in after all: ' : ''
  const free = warrantyHolds(figures, opened) ? '; nothing but carriage for what the warranty covers' : ''
  const [low, high] = [sum(figures.feeLow, currency), sum(figures.feeHigh, currency)]
  return `${when}${low === high ? low : `${low} to ${high}`} and ${sum(figures.carriage, currency)}${free}`
}

function moreLines({ currency }: OnBench, { figures }: View, option: Option): readonly string[] {
  const { way, works, days, yearly } = option
  const year = `By the year: ${about(yearly, currency)}, over the ${yearWords(yearsLeft(figures))} that a fixed one should last.`
  if (way === 'replace') return [replacingWords(figures, currency), year, ...longRunLines(figures, currency)]
  const fails = countOf100(1 - works)
  const runs =
    way === 'send-in'
      ? `${countOf100(works)} of 100 come back fixed, ${dayWords(days)}. The other ${fails} are replaced; that is counted.`
      : `${countOf100(works)} of 100 run again from this bench. The other ${fails} are sent in or replaced; that is counted.`
  return [runs, year]
}

function replacingWords(figures: OnBench['inForce']['figures'], currency: OnBench['currency']): string {
  const { newPrice, newLife, age } = figures
  const served = age === null ? `half of that, as its age is not known` : yearWords(age)
  return `${sum(newPrice, currency)} today. A new one lasts ${yearWords(newLife)}; this one has served ${served}, and fixed it should last ${yearWords(yearsLeft(figures))} more.`
}

function longRunLines(
  figures: OnBench['inForce']['figures'],
  currency: OnBench['currency'],
): readonly string[] {
  const { record, changeAt, failureCostsMore } = longRun(figures)
  const lines: string[] = []
  if (record)
    lines.push(
      record.stillFalling
        ? `By its record, its mean cost a year is still falling (${about(record.yearly, currency)}): no reason to replace it.`
        : `By its record, its mean cost a year was least after ${yearWords(record.years)} (${about(record.yearly, currency)}) and has risen since.`,
    )
  if (changeAt < figures.newLife * 2)
    lines.push(
      `Change the next one at ${yearWords(changeAt)}, before it fails: a failure costs ${sum(failureCostsMore, currency)} more.`,
    )
  return lines
}
