import type { PastCase } from '../../tools/tool-life.js'

/** One month of a tool's year, as drawn: care as a bar, troubles as marks above it. */
export interface MonthBar {
  readonly x: number
  readonly letter: string
  /** height of the bar of care, top of it, in the drawing's units */
  readonly height: number
  readonly y: number
  readonly cases: readonly number[]
  readonly words: string
}

const monthName = new Intl.DateTimeFormat('en-GB', { month: 'long', timeZone: 'UTC' })
const step = 27
const foot = 84
const tallest = 48
const mostMarks = 3

/** The last twelve months, this one last. Heights go by the month with most care. */
export function monthBars(
  today: string,
  care: ReadonlyMap<string, number>,
  cases: readonly Pick<PastCase, 'begunAt'>[],
): readonly MonthBar[] {
  const [year, month] = today.split('-').map(Number) as [number, number]
  const most = Math.max(1, ...care.values())
  return Array.from({ length: 12 }, (_, k) => {
    const when = new Date(Date.UTC(year, month - 12 + k, 15))
    const key = when.toISOString().slice(0, 7)
    const done = care.get(key) ?? 0
    const troubles = cases.filter(({ begunAt }) => begunAt.startsWith(key)).length
    const height = Math.round((done / most) * tallest)
    const name = monthName.format(when)
    return {
      x: 4 + k * step,
      letter: name.slice(0, 1),
      height,
      y: foot - height,
      cases: Array.from({ length: Math.min(troubles, mostMarks) }, (__, mark) => 26 - mark * 10),
      words: `${name}: care ${done}, cases ${troubles}`,
    }
  })
}
