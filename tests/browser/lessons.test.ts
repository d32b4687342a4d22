/** The lessons in a browser: no barrier on a phone or at the desk, before and after the learner has said something. */
import { afterAll, beforeAll, expect, it } from 'vitest'
import type { Bench } from './browser.js'
import { openBench, phone } from './browser.js'
import { faultsOf, sound } from './inspection.js'

let bench: Bench
beforeAll(async () => {
  bench = await openBench()
})
afterAll(() => bench.close())

const paths = [
  '/practice/lessons',
  '/practice/lessons/parts/universal-motor/brushes',
  '/practice/lessons/confusions/cuts-out?kind=universal-motor',
  '/practice/lessons/confusions/cuts-out?kind=universal-motor&say=1',
  '/practice/lessons/hearsay/clipper-burn?say=right',
  '/practice/lessons/by-ear?kind=rotary-cordless&n=5&say=slower',
]

it.each(paths)('%s keeps to WCAG 2.2 AA, to 320 px and to a thumb', async (path) => {
  const page = await bench.open(phone)
  await page.goto(path)
  expect(await faultsOf(page)).toEqual(sound)
  await page.close()
})

it('a made sound plays', async () => {
  const page = await bench.open(phone)
  await page.goto('/practice/lessons/by-ear?kind=rotary-cordless&n=5')
  const length = await page.evaluate<number>(`new Promise((told) => {
    const sound = document.querySelectorAll('audio')[1]
    sound.addEventListener('loadedmetadata', () => told(sound.duration))
    sound.addEventListener('error', () => told(0))
    sound.preload = 'auto'
    sound.load()
  })`)
  expect(length).toBe(6)
  await page.close()
})

it('goes from the list through a question to a tool on the bench, by keys and without scripts of its own', async () => {
  const page = await bench.open({ ...phone, javaScriptEnabled: false })
  await page.goto('/practice/lessons/confusions/cuts-out?kind=universal-motor')
  await page.locator('input[name=say]').first().focus()
  await page.keyboard.press('Space')
  await page.keyboard.press('Enter')
  await page.waitForURL(/say=/)
  expect(await page.locator('[role=status]').innerText()).not.toBe('')
  await page.locator('form[action="/practice/exercises"] button').click()
  // nobody has said who learns, so the door asks, and remembers the lesson
  await page.waitForURL(/\/practice\?lesson=/)
  await page.fill('#name', 'Ines')
  await page.locator('form[action="/practice/people"] button').click()
  await page.waitForURL(/\/practice\/people\//)
  await page.close()
  expect(bench.complaints).toEqual([])
})
