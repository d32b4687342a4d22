import { expect, it } from 'vitest'
import { prepare } from '../../server/diagnosis/prepare.js'
import { toldCauses } from './told.js'
import { cause, finding, fix, KIND, rulebook, step } from '../diagnosis/small-rulebook.js'

const book = rulebook({
  causes: ['a', 'b', 'c', 'd', 'e'].map((id, k) => cause(id, 50 - 8 * k)),
  findings: [finding('x', { e: 0.9 }, { leak: 0.01 }), finding('y', { d: 0.9 }, { leak: 0.01 })],
  steps: [step('look', ['x', 'y'])],
  fixes: [fix('try', { e: 0.999 })],
})
const explains = { verdict: 'case thin', because: 'It could be anything.' }
const story = {
  id: 'one',
  kind: KIND,
  complaint: {},
  observations: {},
  tried: [],
  causes: [{ id: 'e', explains }],
}

async function told(more: object) {
  const [first] = await toldCauses(await prepare(book), [{ ...story, ...more }])
  return first!
}

it('tells the place before, after the complaint, and after all', async () => {
  expect(await told({ complaint: { y: 'yes' }, observations: { x: 'yes' } })).toMatchObject({
    byPrior: 5,
    afterComplaint: 5,
    afterAll: 2, // both are there then, and d is the commoner
    miss: null,
  })
})

it('explains a miss, and only a miss', async () => {
  expect(await told({})).toMatchObject({ afterAll: 5, miss: explains })
  expect(await told({ causes: [{ id: 'c' }] })).toMatchObject({ afterAll: 3, miss: null })
})

it('counts a fix that was tried', async () => {
  expect((await told({ complaint: { x: 'yes' }, tried: ['try'] })).afterAll).toBeGreaterThan(1)
})

it('puts a cause that the kind has not behind them all', async () => {
  expect(await told({ causes: [{ id: 'unheard-of', explains }] })).toMatchObject({
    afterAll: 6,
    miss: explains,
  })
})
