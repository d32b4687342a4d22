/** However little is known, it ends. */
import { afterAll, beforeAll, expect, it } from 'vitest'
import { Barber, mouse } from './barber.js'
import type { Bench } from './browser.js'
import { openBench, phone } from './browser.js'

let bench: Bench
beforeAll(async () => {
  bench = await openBench()
})
afterAll(() => bench.close())

it('"can’t tell" to everything comes to an end, and asks nothing twice', async () => {
  const page = await bench.open(phone)
  const barber = new Barber(page, mouse, bench.knowledge)
  await barber.begin([])
  await barber.lookForDanger([], 'cant-tell')
  const seen: string[] = []
  const most = 80
  let further = 3
  for (let screen = 0; screen < most; screen++) {
    if ((await page.locator('input[name="asked"]').count()) > 0) {
      seen.push(await page.locator('input[name="asked"]').inputValue())
      await barber.answer([], 'cant-tell')
    } else if (await barber.atFix()) {
      seen.push(await barber.heading())
      await barber.tryFix('none of them')
    } else if ((await page.locator('form[action$="/now"]').count()) > 0) await barber.still()
    else if (further-- === 0 || !(await barber.lookFurther())) break
  }
  expect(new Set(seen).size).toBe(seen.length)
  await barber.pressAt('.thumb button[name="state"]')
  expect(await page.locator('.line .state-boxed-for-service, .line .state-set-aside').count()).toBe(1)
  expect(bench.complaints).toEqual([])
  await page.close()
})
