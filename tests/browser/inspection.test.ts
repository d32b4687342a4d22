/** The inspection itself: it must find what is planted. */
import type { Browser } from 'playwright-core'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { launch } from './browser.js'
import { inspect } from './inspection.js'

let browser: Browser
beforeAll(async () => {
  browser = await launch()
})
afterAll(() => browser.close())

it('finds pale words, a wide box, a low button and a picture without words', async () => {
  const page = await browser.newPage()
  await page.setContent(`<!doctype html><html lang="en"><title>Planted</title><main><h1>Planted</h1>
    <p style="color:#aaa;background:#fff">pale</p><div style="width:340px">wide</div>
    <button class="go" style="height:30px">low</button><img src="data:,">
    <style>@media (prefers-color-scheme: dark) { .night { color: #333; background: #222 } }</style>
    <p class="night">dark in the dark</p></main></html>`)
  const found = await inspect(page)
  const violations = found.violations.join('\n')
  expect(violations).toMatch(/360 light color-contrast: .*pale/)
  expect(violations).toMatch(/360 dark color-contrast: .*dark in the dark/)
  expect(violations).not.toMatch(/light color-contrast: .*dark in the dark/)
  expect(violations).toContain('image-alt')
  expect(found.tooWide).toEqual([320])
  expect(found.tooSmall).toEqual([expect.stringContaining('low')])
})
