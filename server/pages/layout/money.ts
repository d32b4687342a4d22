/** Sums of money as they are typed and as they are shown. */
import type { Currency } from '../../../shared/figures.js'

/** The largest amount that a figure may be, in minor units. */
const mostAmount = 100_000_000

/** "12.50": an amount in minor units, as it stands in a field. */
export const amountText = (minor: number, { digits }: Currency): string =>
  (minor / 10 ** digits).toFixed(digits)

/**
 * Reads "12.50" or "12,50". Neither point nor comma parts thousands, so that no sum is taken for another.
 *
 * @returns the amount in minor units, or what to put right
 */
export function readAmount(text: string, currency: Currency): number | { readonly wrong: string } {
  const { code, digits } = currency
  const example = digits === 0 ? '1250' : `12.${'50'.padEnd(digits, '0')} or 12,${'50'.padEnd(digits, '0')}`
  const [, whole, part = ''] = /^(\d{1,12})(?:[.,](\d+))?$/.exec(text.trim()) ?? []
  if (whole === undefined) return { wrong: `enter an amount of 0 or more, such as ${example}` }
  if (part.length > digits) {
    const finest = amountText(1, currency)
    return { wrong: `${code} has nothing finer than ${finest}; enter it like ${example}` }
  }
  const minor = Number(`${whole}${part.padEnd(digits, '0')}`)
  if (minor > mostAmount) return { wrong: `enter at most ${amountText(mostAmount, currency)}` }
  return minor
}

/** "€12.50", "¥1,250", "KWD 1.250"; whole sums lose their zeros. */
export function moneyIn(amount: number, { code, digits }: Currency): string {
  const fraction = Number.isInteger(Number(amount.toFixed(digits))) ? 0 : digits
  return writerOf(code, fraction).format(amount)
}

/** To make one takes longer than to write with it, and a page of moves writes hundreds of sums. */
const writers = new Map<string, Intl.NumberFormat>()

function writerOf(currency: string, fraction: number): Intl.NumberFormat {
  const key = `${currency} ${fraction}`
  const found =
    writers.get(key) ??
    new Intl.NumberFormat('en', {
      style: 'currency',
      currency,
      currencyDisplay: 'narrowSymbol',
      minimumFractionDigits: fraction,
      maximumFractionDigits: fraction,
    })
  writers.set(key, found)
  return found
}

/** "nothing", "about €0.50", "about €36": a sum in major units that was estimated, no finer than the estimate is. */
export function aboutMoneyIn(amount: number, currency: Currency): string {
  if (amount < 0.05) return 'nothing'
  if (amount < 10 && currency.digits > 0) return `about ${moneyIn(Math.round(amount * 10) / 10, currency)}`
  return `about ${moneyIn(amount < 1000 ? Math.round(amount) : Number(amount.toPrecision(3)), currency)}`
}
