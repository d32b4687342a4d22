/**
 * A few fixed people on their way from the start page to the first fix or ending. `npm run walks` measures many;
 * here the marks of a phone's owner are held, with some air: taps, words on a screen, something to tap in reach.
 */
import { reach } from '../../server/diagnosis/plan/reach.js'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { simulatedPeople, toldPeople } from '../walks/people.js'
import type { Walk } from '../walks/walk.js'
import { walk } from '../walks/walk.js'
import type { Bench } from './browser.js'
import { openBench, phone } from './browser.js'
import { preparedRulebook } from '../the-rulebook.js'

const ofEach = 2
const mostTaps = 20
const mostWords = 200

let bench: Bench
const walks: Walk[] = []
beforeAll(async () => {
  bench = await openBench({ far: reach })
  const prepared = await preparedRulebook()
  for (const person of [...toldPeople(ofEach), ...(await simulatedPeople(prepared, ofEach))]) {
    const page = await bench.open(phone)
    walks.push(await walk(page, bench.knowledge, person))
    await page.close()
  }
})
afterAll(() => bench.close())

it('everybody comes to a fix, an ending or a stop', () => {
  expect(walks).toHaveLength(2 * ofEach)
  for (const { end } of walks) expect(end).toMatch(/^(fix|ending|stop): \S/)
})

it(`takes nobody more than ${mostTaps} taps`, () => {
  expect(walks.filter(({ taps }) => taps > mostTaps).map(({ id, taps }) => ({ id, taps }))).toEqual([])
})

it(`shows at most ${mostWords} words on a screen`, () => {
  const long = walks.flatMap(({ id, screens }) =>
    screens.filter(({ words }) => words > mostWords).map(({ name, words }) => `${id}, ${name}: ${words}`),
  )
  expect(long).toEqual([])
})

it('has something to tap in the first 640 px of every screen', () => {
  const far = walks.flatMap(({ id, screens }) =>
    screens.filter(({ inReach }) => !inReach).map(({ name }) => `${id}, ${name}`),
  )
  expect(far).toEqual([])
})

it('hides no line under the buttons that say no to it', () => {
  const hiding = walks.flatMap(({ id, screens }) =>
    screens.filter(({ hidden }) => hidden > 0).map(({ name }) => `${id}, ${name}`),
  )
  expect(hiding).toEqual([])
})
