/** "Is it worth it?" in a browser: with a phone and with keys alone; its picture seen, in print too. */
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { Bench } from './browser.js'
import { openBench, phone } from './browser.js'
import { faultsOf, openAll, sound } from './inspection.js'
import { keysOf } from './keys.js'

let bench: Bench
let at = ''

beforeAll(async () => {
  bench = await openBench()
  at = `${await bench.begun(['cuts-in-and-out'])}/worth`
})
afterAll(() => bench.close())

const opened = async (): Promise<Page> => {
  const page = await bench.open(phone)
  await page.goto(at)
  return page
}
const unfold = (page: Page, id: string) => page.locator(`${id} > summary`).click()

describe('the comparison', () => {
  it('keeps to WCAG 2.2 AA, to 320 px and to a thumb, with all its folds open', async () => {
    const page = await opened()
    await page.evaluate(openAll)
    expect(await faultsOf(page)).toEqual(sound)
    await page.close()
  })

  it('answers on the first screen of a phone, with where to go on', async () => {
    const page = await opened()
    const box = await page.locator('#answer .go').boundingBox()
    expect(box!.y + box!.height).toBeLessThan(740)
    await page.close()
  })

  it('writes the words of its picture at 12 px and more on a phone', async () => {
    const page = await opened()
    await page.locator('#ways > details > summary').first().click()
    const svg = page.locator('.worth-picture svg')
    const scale = await svg.evaluate((it) => {
      const box = it.getBoundingClientRect()
      const [, , width] = (it.getAttribute('viewBox') ?? '').split(' ').map(Number)
      return box.width / (width ?? Infinity)
    })
    const sizes = await svg
      .locator('text')
      .evaluateAll((words) => words.map((it) => Number.parseFloat(it.getAttribute('font-size') ?? '0')))
    expect(sizes.length).toBeGreaterThan(6)
    expect(Math.min(...sizes) * scale).toBeGreaterThanOrEqual(12)
    await page.close()
  })

  it('is drawn in the ink of the page, light, dark and printed', async () => {
    const page = await opened()
    const ink = (): Promise<string[]> =>
      page.evaluate(`['.worth-picture color', '.worth-picture text fill', '.worth-picture path stroke'].map((it) => {
        const [property] = it.split(' ').slice(-1)
        return getComputedStyle(document.querySelector(it.replace(/ [a-z]+$/, '')))[property]
      })`)
    for (const colorScheme of ['light', 'dark'] as const) {
      await page.emulateMedia({ colorScheme })
      const [text, words, axis] = await ink()
      expect([words, axis]).toEqual([text, text])
    }
    await page.emulateMedia({ media: 'print', colorScheme: 'dark' })
    expect(await ink()).toEqual(['rgb(0, 0, 0)', 'rgb(0, 0, 0)', 'rgb(0, 0, 0)'])
    await page.close()
  })

  it('takes a figure by keys alone, from its fold to the new answer, and gives it back', async () => {
    const page = await opened()
    const keys = keysOf(page)
    await keys.press(page.locator('#figures > summary'))
    await keys.press(page.locator('#figure-carriage > summary'))
    // a field that is reached by Tab has all its text selected
    await keys.type(page.locator('#carriage'), '88')
    await Promise.all([
      page.waitForEvent('load'),
      keys.press(page.locator('#figure-carriage button.go-second')),
    ])
    expect(await page.locator('.notice').textContent()).toContain('Calculated')
    expect(await page.locator('#figure-carriage > summary').textContent()).toMatch(/€88\s+said here/)
    await keys.press(page.locator('#figures > summary'))
    await keys.press(page.locator('#figure-carriage > summary'))
    await Promise.all([page.waitForEvent('load'), keys.press(page.locator('#figure-carriage button.plain'))])
    expect(await page.locator('#figure-carriage > summary').textContent()).toMatch(/€10\s+usual/)
    await page.close()
  })

  it('shows a slip where it is, opens its fold, and links to it', async () => {
    const page = await opened()
    await unfold(page, '#figures')
    await unfold(page, '#figure-newPrice')
    await page.locator('#newPrice').fill('much')
    await Promise.all([page.waitForEvent('load'), page.locator('#newPrice').press('Enter')])
    await page.locator('.wrong a').first().click()
    expect(await page.locator('#newPrice').inputValue()).toBe('much')
    const focused = page.locator('#newPrice').evaluate((it) => it.ownerDocument.activeElement === it)
    expect(await focused).toBe(true)
    await page.close()
  })

  it('lets the console be silent', () => {
    expect(bench.complaints).toEqual([])
  })
})
