import type { Currency } from '../../../shared/figures.js'
import type { Kept } from '../../parts/demand.js'
import { csvOf } from '../layout/csv.js'
import type { Frame } from '../layout/frame.js'
import { plainFrame } from '../layout/frame.js'
import { amountText, moneyIn } from '../layout/money.js'
import { countWords } from './part-words.js'

/** What lies on the shelf. */
export interface ShelfPage {
  readonly frame: Frame
  readonly lines: readonly ShelfLine[]
  readonly more: readonly ShelfLine[]
  readonly toBuy: number
}

interface ShelfLine {
  readonly href: string
  readonly name: string
  readonly where: string
  readonly words: string
}

const mostShown = 10

export function shelfPage(kept: readonly Kept[]): ShelfPage {
  const lines = [...kept]
    .sort((a, b) => Number(b.buy > 0) - Number(a.buy > 0))
    .map(({ part, keep }) => ({
      href: `/parts/${part.id}`,
      name: part.name,
      where: part.details.shelf ?? '',
      words: `${countWords(part.stock)} there, keep ${keep}`,
    }))
  return {
    frame: plainFrame('On the shelf', 'tools'),
    lines: lines.slice(0, mostShown),
    more: lines.slice(mostShown),
    toBuy: kept.filter(({ buy }) => buy > 0).length,
  }
}

/** What to buy, to take along. */
export interface ShoppingPage {
  readonly frame: Frame
  readonly lines: readonly { readonly name: string; readonly count: number; readonly words: string }[]
  readonly sum: string | null
}

export function shoppingPage(kept: readonly Kept[], currency: Currency): ShoppingPage {
  const wanted = kept.filter(({ buy }) => buy > 0)
  const money = (minor: number): string => moneyIn(minor / 10 ** currency.digits, currency)
  const priced = wanted.filter(({ part }) => part.details.price !== undefined)
  return {
    frame: plainFrame('Shopping list', 'tools'),
    lines: wanted.map(({ part, buy }) => ({
      name: part.name,
      count: buy,
      words: part.details.price === undefined ? '' : `${money(part.details.price)} each`,
    })),
    sum:
      priced.length === 0
        ? null
        : money(priced.reduce((sum, { part, buy }) => sum + buy * part.details.price!, 0)),
  }
}

export const shoppingCsv = (kept: readonly Kept[], currency: Currency): string =>
  csvOf([
    ['part', 'to buy', 'on the shelf', 'to keep', 'supplier days', 'price each', 'currency'],
    ...kept
      .filter(({ buy }) => buy > 0)
      .map(({ part, buy, keep }) => [
        part.name,
        String(buy),
        String(part.stock),
        String(keep),
        String(part.details.supplierDays),
        part.details.price === undefined ? '' : amountText(part.details.price, currency),
        currency.code,
      ]),
  ])
