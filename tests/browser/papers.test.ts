/** The papers on paper: one sheet of A4 each for the longest case of every kind; and the return, by keys alone. */
import type { Page } from 'playwright-core'
import { afterAll, beforeAll, expect, it } from 'vitest'
import type { Bench } from './browser.js'
import { desk, openBench, phone } from './browser.js'
import { OPENED } from '../api/bench.js'
import { longCase } from './papers-cases.js'
import { knowledge } from '../the-rulebook.js'

let bench: Bench
/** as on paper */
let printed: Page
beforeAll(async () => {
  bench = await openBench()
  printed = await bench.open(desk)
  await printed.emulateMedia({ media: 'print' })
  await printed.setViewportSize({ width: paper.width, height: 300 })
})
afterAll(() => bench.close())

// ISO 216: A4 is 210 by 297 mm. CSS Values 4: 96 px to the inch. Printed with a margin of 10 mm all round.
const px = (mm: number) => Math.floor((mm / 25.4) * 96)
const paper = { width: px(190), height: px(277) }

const kinds = knowledge.kinds.map(({ id }) => id)
const papers = kinds.flatMap((kind) =>
  (['yes', 'no'] as const).flatMap((danger) =>
    (['slip', 'retire'] as const).map((name) => ({ kind, danger, name })),
  ),
)

async function longOne(kind: string, danger: 'yes' | 'no'): Promise<string> {
  const { id } = await bench.cases.begin({ kind, tool: 'Chair 2, black one', at: '2026-03-02T09:00:00.000Z' })
  const details = { volts: '220-240', hertz: '50/60', watts: 45 }
  const listed = { name: 'Chair 2, black one', kind, place: 'in-use', details } as const
  const [tool] = await bench.tools.add([listed], '2026-03-02T09:00:00.000Z')
  await bench.tools.tie(id, tool!.id)
  await bench.cases.append(id, longCase(bench.knowledge, kind, danger), '2026-03-02T10:00:00.000Z')
  return `/cases/${id}`
}

it.each(papers)(
  '$kind, every danger sign $danger: the $name is one sheet of A4, in print that can be read',
  async ({ kind, danger, name }) => {
    await printed.goto(`${await longOne(kind, danger)}/${name}`)
    // what fits the height below is one sheet; that the printer says so too is asked of the first kind
    if (kind === kinds[0]) {
      const pdf = await printed.pdf({ format: 'A4' })
      expect(pdf.toString('latin1').match(/\/Type\s*\/Page\b/g)).toHaveLength(1)
    }
    const height = await printed.evaluate('document.documentElement.scrollHeight')
    // room for the other fonts of another machine
    expect(height).toBeLessThan(paper.height * 0.97)
    // 1 pt is 4/3 px; below 9 pt a receiver reaches for glasses (our own bound)
    const smallest = await printed.evaluate(
      `Math.min(...[...document.querySelectorAll('.slip dd, .slip li, .slip p')]
        .filter((it) => it.textContent.trim() !== '' && it.getClientRects().length > 0 && !it.matches('.stamp'))
        .map((it) => parseFloat(getComputedStyle(it).fontSize)))`,
    )
    expect(smallest).toBeGreaterThanOrEqual(9 * (4 / 3))
  },
)

it('what came back is entered with keys alone, on a phone', async () => {
  const page = await bench.open(phone)
  const home = await bench.begun([])
  const id = home.split('/').at(-1)!
  await bench.cases.append(id, { type: 'finished', state: 'boxed-for-service' }, OPENED)
  await page.goto(`${home}/return`)
  const tabTo = async (selector: string) => {
    for (let press = 0; press < 60; press++) {
      await page.keyboard.press('Tab')
      if (await page.evaluate(`document.activeElement.matches(${JSON.stringify(selector)})`)) return
    }
    throw new Error(`no Tab reaches ${selector}`)
  }
  await tabTo('#fee')
  await page.keyboard.type('48.50')
  await tabTo('#carriage')
  await page.keyboard.type('9')
  await tabTo('#found')
  await page.keyboard.type('a coin in the fan')
  await tabTo('input[name="mended"]')
  await page.keyboard.press('Space')
  await tabTo('input[name="state"]')
  await page.keyboard.press('Space')
  await tabTo('.thumb .go')
  await Promise.all([page.waitForEvent('load'), page.keyboard.press('Enter')])
  expect(await page.locator('h1').innerText()).toBe('Running again')
  expect(await page.innerText('main')).toContain('a coin in the fan')
  await page.close()
})

it('Enter in a field loses nothing that was typed', async () => {
  const page = await bench.open(desk)
  const home = await bench.begun([])
  await bench.cases.append(home.split('/').at(-1)!, { type: 'finished', state: 'boxed-for-service' }, OPENED)
  await page.goto(`${home}/return`)
  await page.locator('#fee').fill('48.50')
  await page.locator('#found').fill('a coin in the fan')
  await Promise.all([page.waitForEvent('load'), page.locator('#found').press('Enter')])
  expect(await page.locator('#found').inputValue()).toBe('a coin in the fan')
  expect(await page.locator('#fee').inputValue()).toBe('48.50')
  await page.close()
})
