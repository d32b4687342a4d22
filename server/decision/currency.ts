/** Currencies by their code, and how fine each one goes. */
import type { Currency } from '../../shared/figures.js'

/**
 * Digits of the minor unit where they are not two: ISO 4217, list one, from memory. (What `Intl` says is how sums are
 * usually rounded for show, which is coarser for some.)
 */
const otherDigits: Readonly<Record<number, readonly string[]>> = {
  0: 'BIF CLP DJF GNF ISK JPY KMF KRW PYG RWF UGX UYI VND VUV XAF XOF XPF'.split(' '),
  3: 'BHD IQD JOD KWD LYD OMR TND'.split(' '),
}

/** Units of account of four digits, which no shop is paid in. */
const tooFine = ['CLF', 'UYW']

const known = new Set(Intl.supportedValuesOf('currency'))

/**
 * @param code as written, in any case: `eur`
 * @returns null when there is no such currency
 */
export function currencyOf(code: string): Currency | null {
  const upper = code.trim().toUpperCase()
  if (!known.has(upper) || tooFine.includes(upper)) return null
  const [digits = 2] = [0, 3].filter((count) => otherDigits[count]!.includes(upper))
  return { code: upper, digits }
}
