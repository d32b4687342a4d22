/** What would change the answer, as sentences: each figure with the value at which another way is best. */
import type { Currency } from '../../../shared/figures.js'
import type { Flip, Turned } from '../../decision/break-even.js'
import { dials } from '../../decision/break-even.js'
import type { CaseComparison } from '../../decision/case-comparison.js'
import { amountNames } from '../../decision/figure-sorts.js'
import { moneyIn } from '../layout/money.js'
import { days, inHundred, listWords } from '../layout/words.js'
import { conditionWords, switchWords, turnedNames, wayWords, yearWords } from './worth-words.js'

export interface FlipLine {
  /** where the figure can be changed */
  readonly href: string
  readonly words: string
  readonly now: string
  /** for programs and tests: the figure, the value in its own unit, and which way is best there */
  readonly figure: string
  readonly at: number
  readonly to: string
}

export interface Flips {
  /** held against the whole plan, the closest first */
  readonly first: readonly FlipLine[]
  /** the others, by a shorter look ahead */
  readonly rest: readonly FlipLine[]
  readonly switched: readonly { readonly href: string; readonly words: string }[]
  /** "whatever the price of a new one"; empty where every figure can change it */
  readonly never: string
}

/** The fold of a figure, where the dial turns two of them together. */
const foldOf: Readonly<Partial<Record<Turned, string>>> = { fee: 'feeLow', daysAway: 'daysAwayLow' }
const hrefOf = (figure: string): string => `#figure-${foldOf[figure as Turned] ?? figure}`

export function flipsView(
  { flips, sure, switched, best }: CaseComparison,
  currency: Currency,
  ageKnown: boolean,
): Flips {
  const line = ({ figure, now, at, to }: Flip): FlipLine => ({
    href: hrefOf(figure),
    words: `${wayWords[to].wins} if ${conditionWords(figure, valueWords(figure, at, currency), at > now)}`,
    now: `${figure === 'age' && !ageKnown ? 'now taken as' : 'now'} ${valueWords(figure, now, currency)}`,
    figure,
    at,
    to,
  })
  const turning = new Set(flips.map(({ figure }) => figure))
  const never = (Object.keys(dials) as Turned[])
    .filter((figure) => !turning.has(figure))
    .flatMap((figure) => turnedNames[figure] ?? [])
  return {
    first: flips.slice(0, sure).map(line),
    rest: flips.slice(sure).map(line),
    switched: switched.map(({ figure, told, to }) => ({
      href: hrefOf(figure),
      words: `${wayWords[to].wins} if ${switchWords(figure, told[figure] as boolean | number | string)}`,
    })),
    never:
      never.length === 0
        ? ''
        : `${wayWords[best.way].wins} whatever ${listWords(never)} may be, all else as it is.`,
  }
}

const amounts: ReadonlySet<string> = new Set(['fee', ...amountNames])

function valueWords(figure: Turned, value: number, currency: Currency): string {
  if (amounts.has(figure)) return moneyIn(value / 10 ** currency.digits, currency)
  if (figure === 'serviceMends') return inHundred(value)
  if (figure === 'interest') return `${Math.round(value * 1000) / 10} % a year`
  if (figure === 'age' || figure === 'newLife') return yearWords(value)
  return days(value)
}
