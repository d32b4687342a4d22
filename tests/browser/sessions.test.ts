/** A session that was lent before knows nothing of it: tests in the browser hang on that. */
import { afterAll, beforeAll, expect, it } from 'vitest'
import type { Bench } from './browser.js'
import { openBench, phone } from './browser.js'

let bench: Bench
beforeAll(async () => {
  bench = await openBench()
})
afterAll(() => bench.close())

const known = `JSON.stringify([{ ...localStorage }, { ...sessionStorage }, document.cookie])`

it('lent again, a session knows neither cookies nor what scripts kept', async () => {
  const page = await bench.open(phone)
  await page.goto('/new')
  await page.evaluate(`localStorage.a = sessionStorage.b = document.cookie = 'left=behind'`)
  expect(await page.evaluate(known)).toContain('left=behind')
  const session = page.context()
  await page.close()
  const next = await bench.open(phone)
  expect(next.context()).toBe(session)
  await next.goto('/new')
  expect(await next.evaluate(known)).toBe('[{},{},""]')
})
