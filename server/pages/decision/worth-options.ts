/** What each way is made of, how long it takes, what can go wrong, which fixes are meant. */
import type { CaseComparison } from '../../decision/case-comparison.js'
import { longRun, wear } from '../../decision/long-run.js'
import type { Makeup, Option, View, Way } from '../../decision/options.js'
import { isMended } from '../../decision/options.js'
import { dayCost, replacingCost, warrantyHolds, yearsLeft } from '../../decision/prices.js'
import { lookupOf } from '../../../shared/rulebook-index.js'
import { moneyIn } from '../layout/money.js'
import type { OnBench } from '../../bench/on-bench.js'
import { countOf100, inHundred, minutes } from '../layout/words.js'
import { about, dayWords, sum, wayWords, yearWords } from './worth-words.js'

/** One line of what a cost is made of, with the figures that it comes from. */
export interface MakeupLine {
  readonly name: string
  readonly words: string
  readonly sum: string
  readonly figures: readonly FigureLink[]
}

export interface FigureLink {
  readonly name: string
  readonly href: string
}

export interface MeantFix {
  readonly count: string
  readonly name: string
  readonly href: string
  readonly words: string
}

export interface OptionView {
  readonly way: Way
  readonly name: string
  readonly cost: string
  readonly back: string
  readonly closed: string | null
  readonly makeup: readonly MakeupLine[]
  readonly yearly: string
  readonly risk: string
  readonly fixes: readonly MeantFix[]
  /** those that few such tools need */
  readonly seldom: readonly MeantFix[]
  /** more lines, such as how replacing is reckoned */
  readonly more: readonly string[]
}

const link = (name: string, id: string): FigureLink => ({ name, href: `#figure-${id}` })
const links = {
  minute: link('a minute', 'minute'),
  partDays: link('days for a part', 'partDays'),
  day: link('a day without', 'dayWithout'),
  away: link('days away', 'daysAwayLow'),
  fee: link('fee', 'feeLow'),
  carriage: link('carriage', 'carriage'),
  inspection: link('a look in vain', 'inspection'),
  mends: link('what comes back mended', 'serviceMends'),
  price: link('price', 'newPrice'),
  life: link('its life', 'newLife'),
  age: link('age', 'age'),
  interest: link('interest', 'interest'),
  newDays: link('days until it is here', 'newDays'),
  upkeep: link('upkeep', 'upkeep'),
  newUpkeep: link('upkeep of a new one', 'newUpkeep'),
} as const

export function optionViews(on: OnBench, comparison: CaseComparison): readonly OptionView[] {
  const view: View = { figures: on.inForce.figures, opened: on.opened }
  return comparison.options.map((option) => optionView(on, comparison, view, option))
}

function optionView(on: OnBench, comparison: CaseComparison, view: View, option: Option): OptionView {
  const { way, cost, yearly, days } = option
  const { currency } = on
  const fixes = way === 'mend-here' ? meantFixes(on, comparison, view) : []
  return {
    way,
    name: wayWords[way].order,
    cost: about(cost, currency),
    back: way === 'mend-here' ? mendedBack(days, option.asMeant) : afterDays(days),
    closed: comparison.barred.get(way)?.name ?? null,
    makeup: makeupLines(on, comparison, view, option),
    yearly: yearlyWords(on, view, way, yearly),
    risk: riskWords(view, option),
    fixes: fixes.slice(0, mostFixes),
    seldom: fixes.slice(mostFixes),
    more: way === 'replace' ? replacingLines(on, view) : [],
  }
}

/** More are read by nobody at once. */
const mostFixes = 4

const afterDays = (days: number): string => (days < 0.5 ? dayWords(days) : `after ${dayWords(days)}`)

function mendedBack(days: number, asMeant: number): string {
  if (days < 0.5 || asMeant <= 0.005) return afterDays(days)
  return `after ${dayWords(days)} on average: the same day where it works`
}

function makeupLines(
  { currency }: OnBench,
  { trouble }: CaseComparison,
  view: View,
  { way, makeup, asMeant }: Option,
): readonly MakeupLine[] {
  const { figures } = view
  const rate = moneyIn(figures.minute / 10 ** currency.digits, currency)
  const working = trouble.mayBe
    .filter((it) => isMended(view, it))
    .reduce((all, it) => all + it.weight * it.jobs.reduce((sum, job) => sum + job.minutes, 0), 0)
  const here = way === 'mend-here'
  const failed = inHundred(1 - asMeant)
  const lines: Record<keyof Makeup, Omit<MakeupLine, 'sum'>> = {
    asking: {
      name: 'Asking and looking',
      words: `${minutes(trouble.asking)} of questions and checks still to come, at ${rate} a minute`,
      figures: [links.minute],
    },
    work: {
      name: 'Work',
      words: `${minutes(working)} of repair, at ${rate} a minute`,
      figures: [links.minute],
    },
    parts: { name: 'Parts', words: 'as the fixes below name them, by how often each is meant', figures: [] },
    waiting: {
      name: 'Waiting',
      words:
        way === 'replace'
          ? `${dayWords(figures.newDays)} without a tool, at ${sum(dayCost(figures), currency)} a day`
          : here
            ? `days without a tool, for a part or at a service, at ${sum(dayCost(figures), currency)} a day`
            : `${dayWords((figures.daysAwayLow + figures.daysAwayHigh) / 2)} away, at ${sum(dayCost(figures), currency)} a day`,
      figures:
        way === 'replace'
          ? [links.newDays, links.day]
          : here
            ? [links.partDays, links.away, links.day]
            : [links.away, links.day],
    },
    fee: {
      name: 'Fee and carriage',
      words: feeWords(view, currency, here),
      figures: [links.fee, links.carriage, links.inspection, links.mends],
    },
    replacing: {
      name: here || way === 'send-in' ? 'A new one after all' : 'Replacing',
      words:
        way === 'replace'
          ? 'the part of a new one’s price that is used up while this one would have served; told below'
          : `where it comes to that; ${sum(replacingCost(figures), currency)} each time${here ? '' : `, in ${failed}`}`,
      figures: [links.price, links.life, links.age, links.interest],
    },
  }
  return (Object.keys(lines) as (keyof Makeup)[])
    .filter((key) => makeup[key] >= 0.5)
    .map((key) => ({ ...lines[key], sum: sum(makeup[key], currency) }))
}

function feeWords({ figures, opened }: View, currency: OnBench['currency'], here: boolean): string {
  const when = here ? 'where it is sent in after all: ' : ''
  if (warrantyHolds(figures, opened))
    return `${when}carriage of ${sum(figures.carriage, currency)}; the work is free in warranty`
  const fee =
    figures.feeLow === figures.feeHigh
      ? sum(figures.feeLow, currency)
      : `${sum(figures.feeLow, currency)} to ${sum(figures.feeHigh, currency)}`
  return `${when}${fee} and ${sum(figures.carriage, currency)} when it comes back mended; ${sum(figures.inspection, currency)} and carriage when it does not`
}

function yearlyWords({ currency }: OnBench, { figures }: View, way: Way, yearly: number): string {
  if (way === 'replace')
    return `${about(yearly, currency)} a year over ${yearWords(figures.newLife)}: price, upkeep and interest.`
  return `${about(yearly, currency)} a year over the ${yearWords(yearsLeft(figures))} that it would still serve, upkeep and interest in it.`
}

function riskWords({ figures }: View, { way, asMeant }: Option): string {
  if (way === 'replace') return 'A new one can fail too; what that costs is left out, for all tools alike.'
  const fails = countOf100(1 - asMeant)
  if (way === 'send-in')
    return `Of 100 such tools ${countOf100(asMeant)} come back mended. The other ${fails} come back as they went and are replaced after all; that is counted.`
  if (asMeant < 0.005)
    return 'Nothing that it may be is mended at this bench: it would be looked at, then sent in or replaced.'
  const then = figures.inWarranty ? 'go to the seller or are replaced' : 'are sent in or replaced'
  return `Of 100 such tools ${countOf100(asMeant)} run again from this bench. The other ${fails} ${then} after all; what that costs is counted. So beginning here closes no other way.`
}

function meantFixes(on: OnBench, { trouble }: CaseComparison, view: View): readonly MeantFix[] {
  const { fixes } = lookupOf(on.knowledge)
  const found = new Map<string, { weight: number; minutes: number; parts: number; chance: number }>()
  const mended = trouble.mayBe.filter((it) => isMended(view, it))
  for (const it of mended)
    for (const job of it.jobs) {
      const before = found.get(job.fix) ?? { weight: 0, minutes: 0, parts: 0, chance: 0 }
      found.set(job.fix, {
        weight: before.weight + it.weight,
        minutes: before.minutes + it.weight * job.minutes,
        parts: job.parts,
        chance: before.chance + it.weight * job.chance,
      })
    }
  return [...found]
    .filter(([, { weight }]) => weight >= 0.01)
    .sort(([, a], [, b]) => b.weight - a.weight)
    .map(([id, { weight, minutes: spent, parts, chance }]) => ({
      count: inHundred(weight),
      name: fixes.get(id)?.name ?? id,
      href: `/rulebook/fixes/${id}`,
      words: [
        minutes(spent / weight),
        ...(parts > 0 ? [`parts ${sum(parts, on.currency)}`] : []),
        `works in ${inHundred(chance / weight)}`,
      ].join(', '),
    }))
}

function replacingLines({ currency }: OnBench, { figures }: View): readonly string[] {
  const { newPrice, newLife, age, interest, spentByYear } = figures
  const left = yearsLeft(figures)
  const served = age === null ? `half of that, as its age is not known` : yearWords(age)
  const lines = [
    `A new one costs ${sum(newPrice, currency)} and serves ${yearWords(newLife)}. This one has served ${served}, so mended it would serve ${yearWords(left)} more. Buying now uses up that much of a new one sooner: ${sum(replacingCost(figures), currency)}, with interest at ${Math.round(interest * 1000) / 10} % and the difference in upkeep.`,
  ]
  const { record, changeAt, failureCostsMore } = longRun(figures)
  if (record) {
    const mean = `(${about(record.yearly, currency)}, at the price of a new one)`
    const years = `By what it has cost in ${spentByYear.length} years its mean cost a year`
    lines.push(
      record.stillFalling
        ? `${years} is still falling ${mean}: its record gives no reason to replace it.`
        : `${years} was least after ${yearWords(record.years)} ${mean} and has risen since: its record speaks for replacing it.`,
    )
  }
  const law = `(Lives spread as a Weibull law of shape ${wear}, a workshop estimate.)`
  lines.push(
    changeAt < newLife * 2
      ? `The next one is best changed at ${yearWords(changeAt)}, before it fails: a failure costs ${sum(failureCostsMore, currency)} more than a planned change. ${law}`
      : `To change the next one before it fails does not pay: a failure costs ${failureCostsMore >= 1 ? `only ${sum(failureCostsMore, currency)}` : 'no'} more than a planned change. ${law}`,
  )
  return lines
}
