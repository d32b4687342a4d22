import { describe, expect, it } from 'vitest'
import { prepare } from '../../server/diagnosis/prepare.js'
import { halfOf, toldCauses } from './told.js'
import { logLoss, shareWithin, sureAgainstRight } from '../../server/proof/told-marks.js'
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

describe('halves, sureness and loss', () => {
  it('a story is always in the same half, and both halves have some', () => {
    const halves = Array.from({ length: 40 }, (_, k) => halfOf(`story-${k}`))
    expect(halves).toEqual(Array.from({ length: 40 }, (_, k) => halfOf(`story-${k}`)))
    expect(new Set(halves)).toEqual(new Set(['tuned-on', 'held-back']))
  })

  it('tells what the scores gave the true cause, and whether the likeliest was one of the story', async () => {
    const seen = await told({ observations: { x: 'yes' } })
    expect(seen.leader.right).toBe(true)
    expect(seen.chance).toBeCloseTo(seen.leader.chance, 12)
    expect(seen.thin).toBe(true)
    expect((await told({ observations: { y: 'yes' } })).leader.right).toBe(false)
  })

  it('log loss, places and steps by hand', async () => {
    const base = await told({ observations: { x: 'yes' } })
    const causes = [
      { ...base, story: 'a', chance: 0.5, afterAll: 1, leader: { chance: 0.95, right: true } },
      { ...base, story: 'b', chance: 0.25, afterAll: 4, leader: { chance: 0.92, right: false } },
    ]
    expect(logLoss(causes).mean).toBeCloseTo((Math.log(2) + Math.log(4)) / 2, 12)
    expect(shareWithin(causes, 3)).toEqual({ mean: 0.5, se: Math.sqrt(0.125) })
    const [last] = sureAgainstRight(causes).slice(-1)
    expect(last).toMatchObject({ stories: 2, right: { mean: 0.5 } })
    expect(last!.said).toBeCloseTo(0.935, 12)
  })
})
