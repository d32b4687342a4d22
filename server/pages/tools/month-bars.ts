import type { CareYear } from '../../tools/care-year.js'
import type { PastCase } from '../../tools/tool-life.js'

/** One month of a tool's year, as drawn: care done as a bar, missed care open upon it, troubles as crosses above. */
export interface MonthBar {
  readonly x: number
  readonly letter: string
  /** tops and heights of the two bars, in the drawing's units */
  readonly done: { readonly y: number; readonly height: number }
  readonly missed: { readonly y: number; readonly height: number }
  /** heights of the crosses */
  readonly cases: readonly number[]
  /** how long the line below is that stands for days away */
  readonly away: number
  readonly words: string
}

const monthName = new Intl.DateTimeFormat('en-GB', { month: 'long', timeZone: 'UTC' })
const step = 27
const foot = 84
const tallest = 48
/** Of a bar. */
const wide = 18
const mostMarks = 3
const daysOfMonth = 30.4

/** The last twelve months, this one last. Heights go by the month with most care. */
export function monthBars(
  today: string,
  care: CareYear,
  cases: readonly Pick<PastCase, 'begunAt'>[],
  away: ReadonlySet<string>,
): readonly MonthBar[] {
  const [year, month] = today.split('-').map(Number) as [number, number]
  const most = Math.max(1, ...[...care.values()].map(({ done, missed }) => done + missed))
  return Array.from({ length: 12 }, (_, k) => {
    const when = new Date(Date.UTC(year, month - 12 + k, 15))
    const key = when.toISOString().slice(0, 7)
    const { done, missed } = care.get(key) ?? { done: 0, missed: 0 }
    const troubles = cases.filter(({ begunAt }) => begunAt.startsWith(key)).length
    const out = [...away].filter((day) => day.startsWith(key)).length
    const high = (count: number) => Math.round((count / most) * tallest)
    const name = monthName.format(when)
    return {
      x: 4 + k * step,
      letter: name.slice(0, 1),
      done: { y: foot - high(done), height: high(done) },
      missed: { y: foot - high(done + missed), height: high(done + missed) - high(done) },
      cases: Array.from({ length: Math.min(troubles, mostMarks) }, (__, mark) => 26 - mark * 10),
      away: Math.min(wide, Math.round((out / daysOfMonth) * wide)),
      words: `${name}: care ${done}, missed ${missed}, cases ${troubles}, days away ${out}`,
    }
  })
}
