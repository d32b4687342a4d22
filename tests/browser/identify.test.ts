/** Which kind is it? By thumb on a phone, by keys alone; back leads back. Without scripts: tests/pages/identify.test.ts. */
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import type { Hand } from './barber.js'
import { thumb } from './barber.js'
import type { Bench } from './browser.js'
import { desk, openBench, phone } from './browser.js'
import { faultsOf, sound } from './inspection.js'
import { keysOf } from './keys.js'

let bench: Bench
beforeAll(async () => {
  bench = await openBench()
})
afterAll(() => bench.close())

const heading = (page: Page): Promise<string> => page.locator('h1').first().innerText()

async function press(page: Page, hand: Hand, name: string | RegExp): Promise<void> {
  const button = page.getByRole('button', { name })
  const target = (await button.count()) > 0 ? button : page.getByRole('link', { name })
  await Promise.all([page.waitForEvent('load'), hand.press(target.first())])
}

/** From the front page to the complaint, answering as somebody who holds a usual tool of the kind. */
async function toTheComplaint(page: Page, hand: Hand, kind: string): Promise<void> {
  const { plainName } = bench.knowledge.kinds.find(({ id }) => id === kind)!
  await page.goto('/new?on=cord')
  await Promise.all([page.waitForEvent('load'), hand.press(page.locator('a[href^="/identify?"]'))])
  for (let look = 0; look < 7 && (await heading(page)) !== plainName; look++) {
    const name = await page.locator('.thumb button[value="yes"]').getAttribute('name')
    if (name === 'hurt') {
      await press(page, hand, /^No\b/)
      continue
    }
    const sign = bench.knowledge.signs.find(({ id }) => `s-${id}` === name)!
    expect(await heading(page)).toBe(sign.text)
    await press(page, hand, sign.kinds[kind]! > 0.5 ? /^Yes\b/ : /^No\b/)
  }
  expect(await heading(page)).toBe(plainName)
  await press(page, hand, /It is this kind/)
  expect(new URL(page.url()).pathname).toMatch(/\/complaint$/)
  await page.goto(page.url().replace(/complaint$/, 'tool'))
  expect(await page.locator('#kind').inputValue()).toBe(kind)
}

describe('the way to the kind', () => {
  const kinds = () => bench.knowledge.kinds.map(({ id }) => id)
  it('by thumb at 360 px', async () => {
    const page = await bench.open(phone)
    await toTheComplaint(page, thumb, kinds().at(-1)!)
    await page.close()
    expect(bench.complaints).toEqual([])
  })

  it('by keys alone', async () => {
    const page = await bench.open(desk)
    await toTheComplaint(page, keysOf(page), kinds()[1]!)
    await page.close()
  })
})

it('takes y, n and c, goes back by the browser, and changes an answer by its link', async () => {
  const page = await bench.open(desk)
  await page.goto('/identify')
  const first = await heading(page)
  const key = (name: string) => Promise.all([page.waitForEvent('load'), page.keyboard.press(name)])
  await key('n')
  const second = await heading(page)
  await key('y')
  const third = await heading(page)
  expect(new Set([first, second, third]).size).toBe(3)
  await page.goBack()
  expect(await heading(page)).toBe(second)
  await key('c')
  await page.locator('#said summary').click()
  await page.locator('#said a').last().click()
  expect(await heading(page)).toBe(second)
  await page.close()
})

it('fits a phone and is readable in light and dark: question, kind found, several left, none', async () => {
  const page = await bench.open(desk)
  const { signs } = bench.knowledge
  const all = (answer: string) => signs.map(({ id }) => `s-${id}=${answer}`).join('&')
  for (const query of ['', '?hurt=yes', `?hurt=no&${all('cant-tell')}`, `?hurt=no&${all('yes')}`]) {
    await page.goto(`/identify${query}`)
    expect({ query, ...(await faultsOf(page)) }).toEqual({ query, ...sound })
  }
  await page.close()
})
