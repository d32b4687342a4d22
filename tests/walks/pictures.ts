/** npm run pictures: the three pictures of the README, made anew from the product itself, into `.pictures/`. */
import { reach } from '../../server/diagnosis/plan/reach.js'
import { mkdirSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { openBench, phone } from '../browser/browser.js'
import { launch } from '../browser/chromium.js'

const folder = fileURLToPath(new URL('../../.pictures/', import.meta.url))
mkdirSync(folder, { recursive: true })

const browser = await launch()
const bench = await openBench({ browser, far: reach })
const page = await bench.open({ ...phone, deviceScaleFactor: 2 })
const picture = (name: string) => page.screenshot({ path: `${folder}${name}.png` })

await page.goto('/')
await picture('start')

await page.goto(await bench.begun(['cuts-in-and-out'], 'Chair 2, black'))
await picture('look')

// Told more, and nothing else to be told: soon the likeliest fix.
await page.goto(await bench.begun(['cuts-in-and-out', 'sparks-bright'], 'Chair 2, black'))
const fix = page.locator('.thumb a.answer[href$="?at=1"]')
for (let turn = 0; turn < 20 && (await fix.count()) === 0; turn++) {
  const unsure = page.locator('.thumb button[value="cant-tell"]').first()
  await Promise.all([page.waitForEvent('domcontentloaded'), unsure.tap()])
}
await fix.waitFor()
await picture('fix')
await bench.close()
await browser.close()
