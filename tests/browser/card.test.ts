/** A card in a browser: on a phone with nothing cut off, and printed on two sides of A5 at most. */
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { readCardFigures } from '../../server/practice/card-figures-file.js'
import type { Bench } from './browser.js'
import { desk, openBench, phone } from './browser.js'
import { faultsOf, sound } from './inspection.js'

let bench: Bench
let page: Page
beforeAll(async () => {
  bench = await openBench()
  page = await bench.open(desk)
})
afterAll(() => bench.close())

/** The first card of every kind that was measured. */
const cards = Object.entries(readCardFigures()?.kinds ?? {}).map(
  ([kind, { complaints }]) => `/practice/cards/${kind}/${Object.keys(complaints)[0]}`,
)

it('there are cards to print', () => expect(cards.length).toBeGreaterThan(0))

it.each(cards)('%s prints on two sides of A5 at most, in print that can be read', async (path) => {
  await page.emulateMedia({ media: null })
  await page.goto(path)
  const pdf = (await page.pdf({ preferCSSPageSize: true })).toString('latin1')
  expect(pdf.match(/\/Type\s*\/Page\b/g)!.length).toBeLessThanOrEqual(2)
  // ISO 216: A5 is 148 by 210 mm; PDF counts 72 points to the inch (ISO 32000-1, 8.3.2.3)
  const [, width, height] = /\/MediaBox\s*\[\s*0 0 ([\d.]+) ([\d.]+)\s*\]/.exec(pdf)!
  expect(Number(width)).toBeCloseTo((148 / 25.4) * 72, -0.5)
  expect(Number(height)).toBeCloseTo((210 / 25.4) * 72, -0.5)

  await page.emulateMedia({ media: 'print' })
  // 7 pt is about what is printed on a seed packet or in a telephone book (our own bound)
  const smallest = await page.evaluate<number>(
    `Math.min(...[...document.querySelectorAll('.nail-card :is(p, li, dd, small)')]
        .filter((it) => it.textContent.trim() !== '' && it.getClientRects().length > 0)
        .map((it) => parseFloat(getComputedStyle(it).fontSize)))`,
  )
  expect(smallest).toBeGreaterThanOrEqual(7 * (4 / 3))
})

it('keeps to WCAG 2.2 AA, to 320 px and to a thumb, and a tap on a line goes there', async () => {
  const page = await bench.open(phone)
  await page.goto('/practice/cards/universal-motor/cuts-in-and-out')
  await page.click('.nail-card-start a')
  expect(await page.evaluate('location.hash')).toBe('#line-1')
  expect(await faultsOf(page)).toEqual(sound)
  await page.goto('/practice/cards?kind=universal-motor')
  expect(await faultsOf(page)).toEqual(sound)
  await page.close()
})
