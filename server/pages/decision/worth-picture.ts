/** The open ways side by side as numbers that a partial draws: a bar for 80 of 100, the middle, what is expected. */
import type { Currency } from '../../../shared/figures.js'
import type { CaseComparison } from '../../decision/case-comparison.js'
import { moneyIn } from '../layout/money.js'
import { sum, wayWords } from './worth-words.js'

export interface WorthPicture {
  /** the same in words; the numbers stand in the table too */
  readonly alt: string
  readonly viewBox: string
  readonly rows: readonly {
    readonly name: string
    readonly words: string
    readonly best: boolean
    /** top of the row, and of what is in it */
    readonly y: number
    readonly hatch: number
    readonly from: number
    readonly long: number
    readonly middle: number
    readonly expected: number
  }[]
  readonly axis: {
    readonly y: number
    readonly ticks: readonly { readonly x: number; readonly words: string; readonly last: boolean }[]
    /** where the last words end, so that they are not cut off */
    readonly end: number
  }
}

/** Units of the drawing; on the page it grows and shrinks with its column. */
const width = 320
const left = 10
const right = 306
const rowHeight = 64

/** Patterns of the page (`hatch-defs`): the ways differ by line, not by colour. */
const hatches = { 'mend-here': 2, 'send-in': 4, replace: 1 } as const

export function worthPicture(
  { options, spreads, barred, advice }: CaseComparison,
  currency: Currency,
): WorthPicture {
  const open = options.filter(({ way }) => !barred.has(way))
  const most = Math.max(1, ...open.map(({ way, cost }) => Math.max(spreads[way].high, cost)))
  const step = tickStep(most)
  const end = Math.ceil(most / step) * step
  const strips = Math.round(end / step)
  const x = (minor: number): number =>
    Math.round((left + ((right - left) * Math.max(0, minor)) / end) * 10) / 10
  return {
    alt: `What each way comes to. ${open.map((it) => altOf(it, spreads[it.way], currency)).join('. ')}.`,
    viewBox: `0 0 ${width} ${open.length * rowHeight + 30}`,
    rows: open.map(({ way, cost }, place) => ({
      name: wayWords[way].order,
      words: sum(cost, currency),
      best: way === advice.option.way,
      y: place * rowHeight,
      hatch: hatches[way],
      from: x(spreads[way].low),
      long: Math.max(1.5, x(spreads[way].high) - x(spreads[way].low)),
      middle: x(spreads[way].middle),
      expected: x(cost),
    })),
    axis: {
      y: open.length * rowHeight,
      end: width,
      ticks: Array.from({ length: strips + 1 }, (_, k) => ({
        x: x(k * step),
        words: moneyIn((k * step) / 10 ** currency.digits, currency),
        last: k === strips,
      })),
    },
  }
}

function altOf(
  { way, cost }: CaseComparison['options'][number],
  { low, high }: CaseComparison['spreads']['replace'],
  currency: Currency,
): string {
  const range = low === high ? '' : `, from ${sum(low, currency)} to ${sum(high, currency)} in 80 of 100`
  return `${wayWords[way].order}: ${sum(cost, currency)} on average${range}`
}

/** 1, 2 or 5 times a power of ten, so that there are three or four strips. */
function tickStep(most: number): number {
  const power = Math.pow(10, Math.floor(Math.log10(most / 3)))
  return power * ([1, 2, 5, 10].find((it) => power * it * 4 >= most) ?? 10)
}
