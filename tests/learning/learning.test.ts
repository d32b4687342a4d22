/** What a shop learns: beta counts from the rulebook's figure, nothing that is not confirmed, and it can be switched off. */
import { describe, expect, it } from 'vitest'
import request from 'supertest'
import { modelOf } from '../../server/diagnosis/model.js'
import { personOf, personRelearned } from '../../server/diagnosis/person.js'
import { afterTally, learnedShares, relearned } from '../../server/diagnosis/relearned.js'
import { countCases, interval } from '../../server/learning/count-case.js'
import { benchWith, OPENED } from '../api/bench.js'
import { Visitor } from '../pages/visitor.js'
import { knowledge } from '../the-rulebook.js'
import { kindAsked, meanOver } from './shops.js'

const model = modelOf(knowledge, kindAsked)
const told = { model, person: personOf(knowledge, model) }

describe('beta counts', () => {
  // rule of succession (s+1)/(n+2): a beta law that starts from 1/2 with the weight of two cases
  it.each([
    [0, 0, 1 / 2],
    [0, 1, 1 / 3],
    [1, 1, 2 / 3],
    [9, 10, 10 / 12],
    [0, 20, 1 / 22],
  ])('%d of %d', (hits, of, mean) => {
    expect(afterTally(0.5, 2, { hits, of })).toBeCloseTo(mean, 12)
  })

  it('never leave (0, 1), and their interval narrows with cases', () => {
    expect(afterTally(0.99, 8, { hits: 500, of: 500 })).toBeLessThan(1)
    const width = (weight: number) => interval(0.3, weight)[1] - interval(0.3, weight)[0]
    expect(width(100)).toBeLessThan(width(10) / 2)
    expect(interval(0, 5)[0]).toBe(0)
  })
})

describe('a kind relearned', () => {
  const cause = model.causes[0]!.id
  const cases = Array.from({ length: 10 }, () => ({ cause, states: new Map(), tried: [] }))

  it('is the rulebook’s own where nothing was confirmed', () => {
    expect(relearned(model, countCases([], 'none'))).toBe(model)
  })

  it('has shares that sum to 1, and more of what was confirmed', () => {
    const shares = learnedShares(model, countCases(cases, 'ten'))
    expect(shares.reduce((a, b) => a + b, 0)).toBeCloseTo(1, 12)
    expect(shares[0]).toBeGreaterThan(model.causes[0]!.shares[kindAsked]! / 1000)
  })

  it('moves a chance of cure by tries alone', () => {
    const fix = model.fixes.find(({ cures }) => (cures['worn-brushes'] ?? 0) > 0)!
    const tried = [{ fix: fix.id, cured: false }]
    const counts = countCases([{ cause: 'worn-brushes', states: new Map(), tried }], 'one')
    const c = model.causeIndex.get('worn-brushes')!
    expect(relearned(model, counts).curesOf.get(fix.id)![c]).toBeCloseTo(
      afterTally(model.curesOf.get(fix.id)![c]!, 8, { hits: 0, of: 1 }),
      12,
    )
  })
})

it('shops with other true figures than the rulebook’s come nearer to them and predict better, wrong confirmations included', () => {
  const seeds = Array.from({ length: 8 }, (_, k) => 1001 + 13 * k)
  for (const wrong of [0, 0.1]) {
    for (const { rulebook, learned } of Object.values(meanOver(told, seeds, wrong)))
      expect(learned).toBeLessThan(rulebook)
  }
})

it('a confirmed case counts in the next one, one that nobody confirmed does not, and the shop may switch it off', async () => {
  const bench = await benchWith({ knowledge })
  const visitor = new Visitor(bench.app)
  const of = async () => {
    const { id } = await bench.cases.begin({ kind: kindAsked, tool: '', at: OPENED })
    const { body } = await request(bench.app).get(`/api/cases/${id}`)
    return Number(/"id":"broken-fan"[^}]*?"probability":([\d.e-]+)/.exec(JSON.stringify(body))?.[1])
  }
  const close = async (cause?: 'broken-fan') => {
    const { id } = await bench.cases.begin({ kind: kindAsked, tool: '', at: OPENED })
    await bench.cases.append(id, { type: 'finished', state: 'set-aside', ...(cause && { cause }) }, OPENED)
  }
  const usual = await of()
  await close()
  expect(await of()).toBe(usual)
  for (let k = 0; k < 5; k++) await close('broken-fan')
  const learned = await of()
  expect(learned).toBeGreaterThan(2 * usual)
  await visitor.open('/learned')
  expect(visitor.words).toMatch(/5 cases/)
  await visitor.post('/learned', { learns: 'no' })
  expect(await of()).toBe(usual)
  await bench.close()
})

it('minutes and the chance to tell move by what was told, from the rulebook’s with its weight', () => {
  const fix = model.fixes.find(({ minutes }) => minutes > 5)!
  const [question, { chance, way }] = [...told.person.telling].find(([, it]) => it.chance < 1)!
  const it = { cause: model.causes[0]!.id, states: new Map(), tried: [] }
  const took = [{ fix: fix.id, minutes: 3 * fix.minutes }]
  const counts = countCases(
    [1, 2, 3, 4].map(() => ({ ...it, took, told: [{ way, told: 0 }] })),
    'four',
  )
  // four times three times as long beside a weight of four: twice as long
  expect(relearned(model, counts).fixes.find(({ id }) => id === fix.id)!.minutes).toBeCloseTo(
    2 * fix.minutes,
    12,
  )
  expect(personRelearned(told.person, counts).telling.get(question)!.chance).toBeCloseTo(
    afterTally(chance, 20, { hits: 0, of: 4 }),
    12,
  )
})

it('what the plan tries is tried with the chance that the shop has come to', () => {
  const fix = model.fixes.find(({ cures }) => (cures['worn-brushes'] ?? 0) > 0)!
  const tried = [{ fix: fix.id, cured: false }]
  const counts = countCases([{ cause: 'worn-brushes', states: new Map(), tried }], 'one')
  const after = relearned(model, counts)
  expect(after.fixes.find(({ id }) => id === fix.id)!.cures['worn-brushes']).toBe(
    after.curesOf.get(fix.id)![model.causeIndex.get('worn-brushes')!],
  )
  expect(after.fixes.find(({ id }) => id === fix.id)!.cures['worn-brushes']).toBeLessThan(
    fix.cures['worn-brushes']!,
  )
})
