/** The three ways side by side, drawn on the server: bars from 1 in 10 to 9 in 10, the middle, and what is expected. */
import type { Spec } from 'vega'
import { parse, View } from 'vega'
import type { Currency } from '../../../shared/figures.js'
import type { CaseComparison } from '../../decision/case-comparison.js'
import type { Way } from '../../decision/options.js'
import { sum, wayWords } from './worth-words.js'
import { onceForEach } from '../../../shared/once-for.js'

/** A finished drawing. It is decoration for whoever cannot see it: the same is in `alt` and in the table. */
export interface WorthPicture {
  readonly svg: string
  readonly alt: string
}

/** Units of the drawing; on the page it grows and shrinks with its column. */
const width = 320
const rowHeight = 64

/** Patterns of the page (`hatch-defs`): the ways differ by line, not by colour. */
const hatches: Readonly<Record<Way, number>> = { 'mend-here': 2, 'send-in': 4, replace: 1 }

const made = onceForEach<CaseComparison, Promise<WorthPicture>>()

/** The picture of a comparison, drawn once. */
export function worthPicture(comparison: CaseComparison, currency: Currency): Promise<WorthPicture> {
  return made(comparison, '', () => drawn(comparison, currency))
}

async function drawn(comparison: CaseComparison, currency: Currency): Promise<WorthPicture> {
  const view = new View(parse(specOf(comparison, currency)), { renderer: 'none' })
  const svg = await view.toSVG()
  view.finalize()
  return {
    // the size comes from the style sheet; the words from `alt`
    svg: svg.replace(
      /^<svg ([^>]*?) width="[\d.]+" height="[\d.]+"/,
      '<svg $1 aria-hidden="true" focusable="false"',
    ),
    alt: altOf(comparison, currency),
  }
}

const ink = { value: 'currentColor' }

function specOf({ options, spreads, barred, best }: CaseComparison, currency: Currency): Spec {
  const unit = 10 ** currency.digits
  const rows = options.map(({ way, cost }, place) => {
    const { low, middle, high } = spreads[way]
    const closed = barred.has(way)
    return {
      top: place * rowHeight,
      low: low / unit,
      middle: middle / unit,
      high: high / unit,
      cost: cost / unit,
      fill: `url(#hatch-${hatches[way]})`,
      dash: closed ? [4, 3] : [],
      name: wayWords[way].order,
      weight: way === best.way ? 'bold' : 'normal',
      words: closed ? `closed; ${sum(cost, currency)}` : sum(cost, currency),
    }
  })
  const y = (down: number) => ({ field: 'top', offset: down })
  const x = (field: string) => ({ scale: 'x', field })
  return {
    width,
    height: rows.length * rowHeight,
    // The size of words is known to the browser alone, so room is left for them by hand.
    autosize: 'none',
    padding: { left: 10, right: 14, top: 2, bottom: 50 },
    data: [{ name: 'rows', values: rows }],
    scales: [
      {
        name: 'x',
        type: 'linear',
        range: 'width',
        nice: true,
        zero: true,
        domain: [0, Math.max(1e-9, ...rows.map(({ high, cost }) => Math.max(high, cost)))],
      },
    ],
    axes: [
      {
        scale: 'x',
        orient: 'bottom',
        aria: false,
        tickCount: 5,
        labelColor: 'currentColor',
        domainColor: 'currentColor',
        tickColor: 'currentColor',
        titleColor: 'currentColor',
        labelFontSize: 15,
        titleFontSize: 15,
        titleFontWeight: 'normal',
        title: `${currency.code} until there is a tool again`,
      },
    ],
    marks: [
      {
        type: 'text',
        aria: false,
        from: { data: 'rows' },
        encode: {
          enter: {
            x: { value: 0 },
            y: y(16),
            text: { field: 'name' },
            fontSize: { value: 17 },
            fontWeight: { field: 'weight' },
            fill: ink,
          },
        },
      },
      {
        type: 'text',
        aria: false,
        from: { data: 'rows' },
        encode: {
          enter: {
            x: { value: width },
            y: y(16),
            align: { value: 'right' },
            text: { field: 'words' },
            fontSize: { value: 17 },
            fontWeight: { field: 'weight' },
            fill: ink,
          },
        },
      },
      {
        type: 'rect',
        aria: false,
        from: { data: 'rows' },
        encode: {
          enter: {
            x: x('low'),
            x2: x('high'),
            y: y(24),
            height: { value: 22 },
            fill: { field: 'fill' },
            stroke: ink,
            strokeWidth: { value: 1.5 },
            strokeDash: { field: 'dash' },
          },
        },
      },
      {
        type: 'rect',
        aria: false,
        from: { data: 'rows' },
        encode: {
          enter: {
            x: { ...x('middle'), offset: -1.5 },
            width: { value: 3 },
            y: y(20),
            height: { value: 30 },
            fill: ink,
          },
        },
      },
      {
        type: 'symbol',
        aria: false,
        from: { data: 'rows' },
        encode: {
          enter: {
            x: x('cost'),
            y: y(35),
            shape: { value: 'diamond' },
            size: { value: 190 },
            fill: { value: 'url(#hatch-0)' },
            stroke: ink,
            strokeWidth: { value: 2.5 },
          },
        },
      },
    ],
  }
}

function altOf({ options, spreads, barred }: CaseComparison, currency: Currency): string {
  const ways = options.map(({ way, cost }) => {
    const { low, high } = spreads[way]
    const range =
      low === high ? '' : `, between ${sum(low, currency)} and ${sum(high, currency)} in 80 of 100`
    return `${wayWords[way].order}: ${sum(cost, currency)} expected${range}${barred.has(way) ? ', closed by a rule' : ''}`
  })
  return `What each way is expected to cost. ${ways.join('. ')}.`
}
