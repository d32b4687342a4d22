/** The door, a learner's own start and the record in a browser, with nothing, little and much kept of the learner. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { causesOf } from '../../server/practice/level-book.js'
import { keepOver } from '../pages/kept-exercises.js'
import { day } from '../practice/results.js'
import { OPENED } from '../api/bench.js'
import type { Bench } from './browser.js'
import { desk, openBench, phone } from './browser.js'
import { faultsOf, openAll, sound } from './inspection.js'
import { keysOf } from './keys.js'

let bench: Bench
const home = { none: '', some: '', many: '' }

beforeAll(async () => {
  bench = await openBench()
  const { register, knowledge } = bench
  const ofClass = await register.addClass({ name: 'Wednesday evening', at: OPENED })
  await register.addClass({ name: 'Thursday', at: OPENED })
  const level = knowledge.levels.find(({ kinds }) => kinds === 'all')!
  for (const [key, name, count] of [
    ['none', 'Ana', 0],
    ['some', 'Bartholomew-Maximilian the Younger of the second chair', 3],
    ['many', 'Chidi', 60],
  ] as const) {
    const { id: learner } = await register.addLearner({ name, class: ofClass.id, at: OPENED })
    home[key] = `/practice/people/${learner}`
    for (let n = 0; n < count; n++) {
      const kind = knowledge.kinds[n % 4]!.id
      const may = causesOf(knowledge, level, kind, { hideSuspects: false, hidePrices: false })
      const [cause, wrong] = [may[(n * 7) % 10]!, may[(n * 7 + 3) % 10]!]
      const right = (n * 30) % 110
      const points = { ...(right > 0 && { [cause]: right }), ...(right < 100 && { [wrong]: 100 - right }) }
      await keepOver(
        register,
        { learner, kind, level: level.id, suspects: may },
        {
          at: day(OPENED, n - count),
          causes: [cause],
          over: n % 11 === 5 ? 'slip' : 'send-in',
          lostMinutes: n === count - 1 ? null : (n * 13) % 40,
          ...(n % 9 !== 4 && { spread: { points, other: 0 } }),
        },
      )
    }
  }
  const { id: many } = (await register.learners()).find(({ name }) => name === 'Chidi')!
  const setting = { hideSuspects: true, hidePrices: false, complaint: 'It hums and does not cut.' }
  const kind = bench.knowledge.kinds[1]!.id
  await register.addSetExercise({ class: ofClass.id, kind, level: level.id, seed: 1, setting, at: OPENED })
  await register.begin({ learner: many, kind, level: level.id, seed: 2, setting, at: OPENED })
})
afterAll(() => bench.close())

describe('each page', () => {
  it.each([
    ['the door', () => '/practice'],
    ['a start with much on it', () => home.many],
    ['an empty record', () => `${home.none}/record`],
    ['a record of three, of a long name', () => `${home.some}/record`],
    ['a record of sixty', () => `${home.many}/record`],
  ])('%s keeps to WCAG 2.2 AA, to 320 px and to a thumb, folds open too', async (_, path) => {
    const page = await bench.open(phone)
    await page.goto(path())
    await page.evaluate(openAll)
    expect(await faultsOf(page)).toEqual(sound)
    await page.close()
  })
})

it('names, one under the thumb each, begin a start; by keys too', async () => {
  const page = await bench.open(phone)
  await page.goto('/practice')
  const heights = await page
    .locator('.name-tape')
    .evaluateAll((tapes) => tapes.map((tape) => tape.getBoundingClientRect().height))
  expect(heights).toHaveLength(3)
  expect(Math.min(...heights)).toBeGreaterThanOrEqual(56)
  await Promise.all([page.waitForEvent('load'), keysOf(page).press(page.locator('.name-tape').first())])
  expect(await page.locator('h1').innerText()).toContain('Ana')
  const act = (await page.locator('.go').boundingBox())!
  // the one main act stands on the first screen of a phone
  expect(act.y + act.height).toBeLessThan(740)
  await page.close()
})

it('the drawings are read on a phone, and their ink is the page’s, dark and printed', async () => {
  const page = await bench.open(phone)
  await page.goto(`${home.many}/record`)
  for (const drawing of ['.confusion svg', '.nails']) {
    const least = await page
      .locator(drawing)
      .first()
      .evaluate((svg) => {
        const [, , width] = (svg.getAttribute('viewBox') ?? '').split(' ').map(Number)
        const scale = svg.getBoundingClientRect().width / (width ?? Infinity)
        const view = svg.ownerDocument.defaultView!
        const sizes = [...svg.querySelectorAll('text')].map((it) =>
          parseFloat(view.getComputedStyle(it).fontSize),
        )
        return Math.min(...sizes) * scale
      })
    expect(least, drawing).toBeGreaterThanOrEqual(12)
  }
  const ink = () =>
    page.evaluate<string[]>(`[
      getComputedStyle(document.querySelector('.confusion')).color,
      getComputedStyle(document.querySelector('.confusion-name')).fill,
      getComputedStyle(document.querySelector('.confusion-right')).stroke,
      getComputedStyle(document.querySelector('.nail-head')).fill,
    ]`)
  for (const colorScheme of ['light', 'dark'] as const) {
    await page.emulateMedia({ colorScheme })
    expect(new Set(await ink()).size).toBe(1)
  }
  await page.emulateMedia({ media: 'print', colorScheme: 'dark' })
  expect(new Set(await ink())).toEqual(new Set(['rgb(0, 0, 0)']))
  await page.close()
})

it('on a desk the biggest mix-up stands on the first screen', async () => {
  const page = await bench.open(desk)
  await page.goto(`${home.many}/record`)
  const first = (await page.locator('.mix-ups li').first().boundingBox())!
  expect(first.y + first.height).toBeLessThan(900)
  await page.close()
})

it('lets the console be silent', () => {
  expect(bench.complaints).toEqual([])
})
