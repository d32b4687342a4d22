/** The debrief of a finished exercise in a browser: at phone and desk, closed and with every fold open. */
import { afterAll, beforeAll, expect, it } from 'vitest'
import type { PracticeMove } from '../../shared/practice.js'
import { OPENED } from '../api/bench.js'
import type { Bench } from './browser.js'
import { desk, openBench, phone } from './browser.js'
import { faultsOf, sound } from './inspection.js'

let bench: Bench
const at = { long: '', slip: '' }

beforeAll(async () => {
  bench = await openBench()
  const { register, knowledge } = bench
  const ofClass = await register.addClass({ name: 'Tuesdays', at: OPENED })
  const { id: learner } = await register.addLearner({ name: 'Ana', class: ofClass.id, at: OPENED })
  const kind = knowledge.levels.find(({ kinds }) => kinds !== 'all')!.kinds[0]!
  const steps = knowledge.steps.filter(({ kinds }) => kinds.includes(kind))
  const danger = steps.find(({ form }) => form === 'danger')!
  const causes = knowledge.causes.filter(({ shares }) => kind in shares).map(({ id }) => id)
  const moves: Record<keyof typeof at, PracticeMove[]> = {
    long: [
      { type: 'stood', setup: danger.setups[0]! },
      { type: 'looked', step: danger.id },
      ...steps
        .filter(({ form }) => form === 'ask')
        .map(({ id }): PracticeMove => ({ type: 'looked', step: id })),
      { type: 'spread', spread: { points: { [causes[0]!]: 70 }, other: 30 } },
      { type: 'disinfected' },
      { type: 'ended', way: 'hand-back' },
    ],
    slip: [
      { type: 'stood', setup: knowledge.setups.find((it) => it.opensBody && it.kinds.includes(kind))!.id },
    ],
  }
  for (const key of ['long', 'slip'] as const) {
    const setting = { hideSuspects: false, hidePrices: false, causes: [causes[1]!] }
    const level = knowledge.levels.find(({ wrongAnswers, kinds }) => wrongAnswers > 0 && kinds === 'all')!.id
    let exercise = await register.begin({ learner, kind, level, seed: 4, setting, at: OPENED })
    for (const move of moves[key])
      exercise = await register.makeMove(exercise.id, move, OPENED, exercise.moves.length)
    // what it was is told after a safety mistake only to those who ask
    at[key] = `/practice/exercises/${exercise.id}/debrief?told=yes`
  }
})
afterAll(() => bench.close())

it.each([
  ['long, on a phone', 'long', phone],
  ['long, at a desk', 'long', desk],
  ['ended by a slip, on a phone', 'slip', phone],
] as const)('keeps to WCAG 2.2 AA, to 320 px and to a thumb: %s', async (_, key, size) => {
  const page = await bench.open(size)
  await page.goto(at[key])
  // the small page that says so while it is worked out asks again by itself
  await page.locator('#steps').waitFor()
  expect(await faultsOf(page)).toEqual(sound)
  await page.close()
})
