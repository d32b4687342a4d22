/** The dry run by keyboard and without scripts: say something, change a number, take the lines to paste along. */
import type { Locator, Page } from 'playwright-core'
import { afterAll, beforeAll, expect, it } from 'vitest'
import type { Bench } from './browser.js'
import { openBench, phone } from './browser.js'
import { faultsOf, sound } from './inspection.js'

let bench: Bench
let page: Page
beforeAll(async () => {
  bench = await openBench()
  page = await bench.open({ ...phone, javaScriptEnabled: false })
})
afterAll(() => bench.close())

/** The count in the last column of a suspect's row. */
const countOf = async (name: string): Promise<number> =>
  Number((await page.locator(`.lab-suspects tr:has-text("${name}") td.num`).last().innerText()).trim())

const hasFocus = (target: Locator): Promise<boolean> =>
  target.evaluate((element) => element.ownerDocument.activeElement === element)

/** Presses Tab until the thing has the focus, as somebody without a mouse does. */
async function tabTo(selector: string): Promise<void> {
  for (let presses = 0; presses < 120; presses++) {
    await page.keyboard.press('Tab')
    if (await hasFocus(page.locator(selector).first())) return
  }
  throw new Error(`the keyboard never reaches ${selector}`)
}

it('goes from the rulebook to an answer, a changed number and the lines to paste, by keys alone', async () => {
  await page.goto('/rulebook')
  await tabTo('a[href="/lab"]')
  await page.keyboard.press('Enter')
  await page.waitForURL(/\/lab/)

  await tabTo('#find')
  await page.keyboard.type('cuts in and out')
  await page.keyboard.press('Enter')
  await page.waitForURL(/find=cuts/)
  await tabTo('[name="q-cuts-in-and-out"]')
  await page.keyboard.type('Yes')
  await tabTo('.go')
  await page.keyboard.press('Enter')
  await page.waitForURL(/q-cuts-in-and-out=yes/)
  const before = await countOf('Worn carbon brushes')
  expect(before).toBeGreaterThan(10)

  await tabTo('#open')
  await page.keyboard.type('It cuts in and out')
  await page.keyboard.press('Tab')
  await page.keyboard.press('Enter')
  await page.waitForURL(/open=finding%3Acuts-in-and-out/)
  await tabTo('[name="s.cuts-in-and-out.worn-brushes"]')
  await page.keyboard.press('Control+A')
  await page.keyboard.type('10')
  await page.keyboard.press('Enter')
  await page.waitForURL(/worn-brushes=10/)
  expect(await countOf('Worn carbon brushes')).toBeLessThan(before)
  const pasted = await page.locator('.lab-json').first().innerText()
  const { strengths } = JSON.parse(`{${pasted.replace(/,\s*$/, '')}}`) as {
    strengths: Record<string, unknown>
  }
  expect(strengths['worn-brushes']).toBe(0.1)
  expect(await page.locator('h3 code').first().innerText()).toBe('rules/findings/cuts-in-and-out.json')

  // Back is back: everything stands in the address.
  await page.goBack()
  expect(await countOf('Worn carbon brushes')).toBe(before)
})

it('keeps what was typed when something is to be put right, and is readable at every width', async () => {
  const other = await bench.open()
  await other.goto('/lab?q-cuts-in-and-out=yes&l.cuts-in-and-out=4oo&p.worn-brushes=130&q-gone-for-good=yes')
  expect(await other.locator('.wrong li').count()).toBe(1)
  expect(await other.locator('[name="l.cuts-in-and-out"]').inputValue()).toBe('4oo')
  expect(await other.locator('[name="p.worn-brushes"]').inputValue()).toBe('130')
  expect(await faultsOf(other)).toEqual(sound)
})
