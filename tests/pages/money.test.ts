/** Sums as typed and as shown: minor units of ISO 4217. */
import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { aboutMoneyIn, amountText, moneyIn, readAmount } from '../../server/pages/layout/money.js'
import { currencyOf } from '../../server/decision/currency.js'

const euro = currencyOf('EUR')!
const yen = currencyOf('JPY')!
const dinar = currencyOf('KWD')!

describe('currencies', () => {
  // ISO 4217:2015, list one (maintained by SIX Group), column "minor unit"; from memory
  it.each([
    ['EUR', 2],
    ['USD', 2],
    ['GBP', 2],
    ['CHF', 2],
    ['HUF', 2],
    ['TRY', 2],
    ['JPY', 0],
    ['KRW', 0],
    ['CLP', 0],
    ['ISK', 0],
    ['KWD', 3],
    ['BHD', 3],
    ['TND', 3],
  ])('%s has %i digits', (code, digits) => {
    expect(currencyOf(code)).toEqual({ code, digits })
    expect(currencyOf(` ${code.toLowerCase()} `)).toEqual({ code, digits })
  })
  it('is never coarser than sums are shown as a rule (Unicode CLDR, by way of Intl)', () => {
    for (const code of Intl.supportedValuesOf('currency')) {
      const shown = new Intl.NumberFormat('en', { style: 'currency', currency: code }).resolvedOptions()
      const currency = currencyOf(code)
      if (currency) expect(currency.digits, code).toBeGreaterThanOrEqual(shown.maximumFractionDigits!)
    }
  })
  it.each(['', 'EU', 'EURO', 'ZZZ', '123', 'CLF', '__proto__'])('"%s" is none', (code) => {
    expect(currencyOf(code)).toBeNull()
  })
})

describe('a sum that was typed', () => {
  it.each([
    ['12.50', euro, 1250],
    ['12,50', euro, 1250],
    ['12.5', euro, 1250],
    [' 12 ', euro, 1200],
    ['0', euro, 0],
    ['0,07', euro, 7],
    ['4.35', euro, 435], // 434.99999999999994 in binary floating point
    ['1250', yen, 1250],
    ['1,250', dinar, 1250],
    ['1000000', euro, 100_000_000],
  ])('%s', (text, currency, minor) => {
    expect(readAmount(text, currency)).toBe(minor)
  })
  it.each([
    ['12.505', euro, 'EUR has nothing finer than 0.01; enter it like 12.50 or 12,50'],
    ['1,250', euro, 'EUR has nothing finer than 0.01'], // no thousand of euros by mistake
    ['12.50', yen, 'JPY has nothing finer than 1; enter it like 1250'],
    ['0.0005', dinar, 'KWD has nothing finer than 0.001'],
    ['-4', euro, 'enter an amount of 0 or more, such as 12.50 or 12,50'],
    ['much', euro, 'enter an amount of 0 or more'],
    ['1e3', euro, 'enter an amount'],
    ['1.250,00', euro, 'enter an amount'],
    ['12.', euro, 'enter an amount'],
    ['١٢', euro, 'enter an amount'],
    ['1000000.01', euro, 'enter at most 1000000.00'],
  ])('%s is refused', (text, currency, slip) => {
    expect(readAmount(text, currency)).toMatchObject({ wrong: expect.stringContaining(slip) })
  })
  it('is read back as it was written, in every currency', () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: 100_000_000 }),
        fc.constantFrom(euro, yen, dinar),
        fc.boolean(),
        (minor, currency, comma) => {
          const text = amountText(minor, currency)
          expect(readAmount(comma ? text.replace('.', ',') : text, currency)).toBe(minor)
        },
      ),
    )
  })
})

describe('a sum that is shown', () => {
  it.each([
    [6, euro, '€6'],
    [3.2, euro, '€3.20'],
    [1250, yen, '¥1,250'],
    [12.5, currencyOf('USD')!, '$12.50'],
  ])('%f is %s', (sum, currency, words) => {
    expect(moneyIn(sum, currency)).toBe(words)
  })
  it('is no finer than its estimate', () => {
    expect([0.01, 3.24, 36.4, 4321].map((sum) => aboutMoneyIn(sum, euro))).toEqual([
      'nothing',
      'about €3.20',
      'about €36',
      'about €4,320',
    ])
    expect(aboutMoneyIn(7.4, yen)).toBe('about ¥7')
  })
})
