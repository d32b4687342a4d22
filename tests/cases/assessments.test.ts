import { expect, it } from 'vitest'
import { rememberAssessments } from '../../server/remembered/assessments.js'
import type { Assessment } from '../../shared/diagnosis.js'
import { ShopSettings, Situation } from '../../shared/situation.js'

const shop = ShopSettings.parse({})
const situation = (more: Partial<Situation> = {}) => Situation.parse({ kind: 'bench-motor', ...more })

/** Counts its runs; what it answers is of no matter here. */
function counting(most?: number) {
  let runs = 0
  const assessments = rememberAssessments(() => Promise.resolve({ exact: ++runs > 0 } as Assessment), most)
  return { runs: () => runs, ask: (it: Situation, by: ShopSettings = shop) => assessments.of(it, by) }
}

it('runs once for situations that the diagnosis cannot tell apart', async () => {
  const { runs, ask } = counting()
  await ask(situation({ answers: { hot: 'yes', 'cuts-out': 'no' }, cannotDo: ['a', 'b'] }))
  await ask(
    situation({ answers: { 'cuts-out': 'no', hot: 'yes' }, answeredAfter: { hot: 0 }, cannotDo: ['b', 'a'] }),
  )
  expect(runs()).toBe(1)
})

it.each<[string, Partial<Situation>, Partial<Situation>]>([
  ['an answer', { answers: { hot: 'yes' } }, { answers: { hot: 'no' } }],
  ['the order of fixes', { fixesTried: ['a', 'b'] }, { fixesTried: ['b', 'a'] }],
  [
    'when it was answered',
    { answers: { hot: 'yes' }, fixesTried: ['a'] },
    { answers: { hot: 'yes' }, fixesTried: ['a'], answeredAfter: { hot: 1 } },
  ],
  ['what cannot be done', {}, { cannotDo: ['a'] }],
  ['a lifted stop', {}, { stopsLifted: ['a'] }],
  ['the set-ups', {}, { standing: ['a'] }],
  ['an id that belongs to another list', { standing: ['a'] }, { stopsLifted: ['a'] }],
])('runs again when %s differs', async (_, one, other) => {
  const { runs, ask } = counting()
  await ask(situation(one))
  await ask(situation(other))
  expect(runs()).toBe(2)
})

it('runs again for a shop with other figures', async () => {
  const { runs, ask } = counting()
  await ask(situation())
  await ask(situation(), { ...shop, rate: 1 })
  await ask(situation(), { ...shop, inWarranty: true })
  expect(runs()).toBe(3)
})

it('shares one run between two that ask at once', async () => {
  const { runs, ask } = counting()
  const [one, two] = await Promise.all([ask(situation()), ask(situation())])
  expect(one).toBe(two)
  expect(runs()).toBe(1)
})

it('forgets the one that was not asked for longest', async () => {
  const { runs, ask } = counting(2)
  for (const fix of ['a', 'b', 'a', 'c', 'a']) await ask(situation({ fixesTried: [fix] }))
  expect(runs()).toBe(3)
  await ask(situation({ fixesTried: ['b'] }))
  expect(runs()).toBe(4)
})

it('does not remember a failure', async () => {
  let runs = 0
  const assessments = rememberAssessments(() => {
    runs++
    return runs === 1 ? Promise.reject(new Error('no')) : Promise.resolve({} as Assessment)
  })
  await expect(assessments.of(situation(), shop)).rejects.toThrow('no')
  await expect(assessments.of(situation(), shop)).resolves.toEqual({})
})
