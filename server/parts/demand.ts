/** How often a part is expected to be used: from the rulebook, then from the shop's own record. Pure. */
import { bookOf } from '../../shared/book-of-kind.js'
import type { Habits } from '../../shared/habits.js'
import type { Knowledge } from '../../shared/knowledge.js'
import { onceForEach } from '../../shared/once-for.js'
import type { Part } from '../../shared/part.js'
import type { Tool } from '../../shared/tool.js'
import type { Rate } from './base-stock.js'
import { baseStock, expectedRate, meanOf, runsOut, seen } from './base-stock.js'

/** Troubles of a tool in a year that somebody at the bench looks into. An estimate. */
const troublesAYear = 1.5
/** The rulebook's expectation counts as so many uses seen. An estimate. */
const weight = 1
/** Share of demands that the shelf should meet. */
const serviceLevel = 0.95
/** Nothing expected is expected once in so many years. */
const rarest = 50

export interface Kept {
  readonly part: Part
  readonly rate: Rate
  /** how many to keep */
  readonly keep: number
  readonly buy: number
  /** chance that it runs out before the supplier brings more */
  readonly runsOut: number
}

/**
 * @param used  what was taken of it in the last `years`
 * @param years how long the shop has kept a record of its shelf, above 0
 */
export function keptOf(
  knowledge: Knowledge,
  habits: Habits,
  tools: readonly Tool[],
  part: Part,
  used: number,
  years: number,
): Kept {
  const kept = tools.filter(({ place }) => place === 'in-use' || place === 'spare')
  const expected = Math.max(1 / rarest, expectedUses(knowledge, habits, kept, part))
  const rate = seen(expectedRate(expected, weight), used, years)
  const wait = part.details.supplierDays / 365
  // what care takes is kept however little of it goes: without it the care is not done
  const byCare = kept.some(({ kind }) => careTaking(knowledge, habits, kind, part).length > 0)
  const keep = !byCare && meanOf(rate) < 2 / rarest ? 0 : baseStock(rate, wait, serviceLevel)
  // a bottle begun is no whole one
  const buy = Math.max(0, keep - Math.floor(part.stock))
  return { part, rate, keep, buy, runsOut: runsOut(rate, wait, part.stock) }
}

/** Uses a year, in whole parts. */
function expectedUses(
  knowledge: Knowledge,
  habits: Habits,
  tools: readonly Tool[],
  part: Pick<Part, 'details'>,
): number {
  const { is, perUse } = part.details
  return tools.reduce((sum, { kind, details: { clientsADay = 0 } }) => {
    const byFix = takenBy(knowledge, kind).reduce(
      (sum, { share, parts }) => sum + (parts.some((name) => is.includes(name)) ? share : 0),
      0,
    )
    const byCare = careTaking(knowledge, habits, kind, part).reduce((times, task) => {
      const days = habits.everyDays[task.id] ?? task.everyDays
      // what is disinfected goes by clients, not by the calendar
      return times + (days ? 365 / days : task.disinfects ? 365 * clientsADay : 0)
    }, 0)
    return sum + (byFix * troublesAYear + byCare) * perUse
  }, 0)
}

/** Care of a kind that takes of the part; none that the shop leaves out. */
const careTaking = (
  knowledge: Knowledge,
  { everyDays }: Habits,
  kind: string,
  { details }: Pick<Part, 'details'>,
) => bookOf(knowledge, kind).care.filter(({ id }) => details.care.includes(id) && everyDays[id] !== null)

/** Of each cause of a kind: its share of troubles, and the parts of the fix that cures it best, which is done in the end. */
const takenBy = (knowledge: Knowledge, kind: string) =>
  taken(knowledge, kind, () => {
    const { causes, fixes } = bookOf(knowledge, kind)
    return causes.flatMap(({ id, shares }) => {
      const [best] = fixes
        .filter(({ cures }) => (cures[id] ?? 0) > 0)
        .sort((a, b) => b.cures[id]! - a.cures[id]!)
      const parts = best?.parts.map(({ name }) => name) ?? []
      return parts.length > 0 ? [{ share: (shares[kind] ?? 0) / 1000, parts }] : []
    })
  })
const taken = onceForEach<Knowledge, readonly { share: number; parts: readonly string[] }[]>()
