/** npm run pictures: the three pictures of the README, made anew from the product itself, into `.pictures/`. */
import { mkdirSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { openBench, phone } from '../browser/browser.js'

const folder = fileURLToPath(new URL('../../.pictures/', import.meta.url))
mkdirSync(folder, { recursive: true })

const bench = await openBench()
const page = await bench.open({ ...phone, deviceScaleFactor: 2 })
const picture = (name: string) => page.screenshot({ path: `${folder}${name}.png` })

await page.goto('/')
await picture('start')

await page.goto(await bench.begun(['cuts-in-and-out'], 'Chair 2, black'))
await picture('look')

// What worn brushes answer, until the plan comes to a fix.
for (let turn = 0; turn < 20 && (await page.locator('input[name=asked]').count()) > 0; turn++) {
  const asked = (await page.locator('input[name=asked]').inputValue()).split(',')
  const one = page.locator(
    `.thumb button[name="q-${asked[0]}"][value="${asked[0]?.startsWith('brush') ? 'yes' : 'no'}"]`,
  )
  const target =
    asked.length === 1 && (await one.count()) > 0 ? one : page.locator('button[name=rest]').first()
  await Promise.all([page.waitForEvent('domcontentloaded'), target.tap()])
}
await picture('fix')
await bench.close()
