/** The shop's record and the figures of a case, by the API, in minor units. */
import request from 'supertest'
import { beforeEach, describe, expect, it } from 'vitest'
import type { CaseView, ProblemDetails, ShopView } from '../../shared/api.js'
import { fix, setup } from '../diagnosis/small-rulebook.js'
import { tinyRulebook } from '../cases/tiny-rulebook.js'
import type { Bench } from './bench.js'
import { benchWith } from './bench.js'
import { expectDocumented } from './documented.js'

let bench: Bench
beforeEach(async () => {
  bench = await benchWith()
})

const shop = async (body?: object, status = 200): Promise<ShopView> => {
  const res = body
    ? await request(bench.app).post('/api/shop').send(body)
    : await request(bench.app).get('/api/shop')
  expect(res.status, res.text).toBe(status)
  expectDocumented(res, body ? 'post' : 'get', '/api/shop')
  return res.body as ShopView
}
const refused = async (body: object) => (await shop(body, 422)) as unknown as ProblemDetails
const on = async (id: string, path: string, body: object, status = 200): Promise<CaseView> => {
  const res = await request(bench.app).post(`/api/cases/${id}/${path}`).send(body)
  expect(res.status, res.text).toBe(status)
  expectDocumented(res, 'post', `/api/cases/{id}/${path}`)
  return res.body as CaseView
}
const begin = async (): Promise<string> => {
  const res = await request(bench.app).post('/api/cases').send({ kind: 'bench-motor' }).expect(201)
  const { id } = res.body as CaseView
  await on(id, 'answers', { answers: { tingle: 'no', scorched: 'no', 'cuts-out': 'yes' } })
  return id
}

describe('/api/shop', () => {
  it('holds nothing of its own at first, and the usual figures are in force', async () => {
    expect(await shop()).toMatchObject({
      currency: { code: 'EUR', digits: 2 },
      figures: {},
      inForce: { minute: 80, feeLow: 4500, feeHigh: 7500, age: null },
    })
  })
  it('sets what is named, leaves the rest, and gives back what is to be forgotten', async () => {
    await shop({ figures: { minute: 120, carriage: 800, hasSpare: true } })
    const now = await shop({ figures: { minute: 95 }, forget: ['carriage'] })
    expect(now.figures).toEqual({ minute: 95, hasSpare: true })
    expect(now.inForce).toMatchObject({ minute: 95, carriage: 1000 })
    expect(await shop()).toEqual(now)
  })
  it('turns a range round that is upside down', async () => {
    const { inForce } = await shop({ figures: { feeLow: 9000, feeHigh: 4000 } })
    expect(inForce).toMatchObject({ feeLow: 4000, feeHigh: 9000 })
  })
  it('takes another currency, and lets no cent pass for a yen', async () => {
    expect((await shop({ currency: 'usd', figures: { minute: 90 } })).currency).toEqual({
      code: 'USD',
      digits: 2,
    })
    const [slip] = (await refused({ currency: 'JPY' })).errors!
    expect(slip).toMatchObject({ pointer: '#/currency', detail: expect.stringMatching(/set minute again/) })
    expect((await shop({ currency: 'JPY', figures: { minute: 120 } })).currency).toEqual({
      code: 'JPY',
      digits: 0,
    })
  })
  it.each<[string, object, string, RegExp]>([
    ['no currency', { currency: 'ZZZ' }, '#/currency', /is no currency/],
    ['half a cent', { figures: { minute: 80.5 } }, '#/figures/minute', /whole number|integer/],
    ['less than nothing', { figures: { newPrice: -1 } }, '#/figures/newPrice', /at least 0/],
    ['a figure that is none', { figures: { tip: 3 } }, '#/figures/tip', /not known/],
    [
      'set and given back at once',
      { figures: { minute: 90 }, forget: ['minute'] },
      '#/forget/0',
      /set it or give it back/,
    ],
  ])('refuses %s and says where', async (_, body, pointer, detail) => {
    const { errors } = await refused(body)
    expect(errors?.[0]).toMatchObject({ pointer, detail: expect.stringMatching(detail) })
    expect((await shop()).figures).toEqual({})
  })
  it('what it sets is what plans count with', async () => {
    const cost = async () => {
      const answers = { tingle: 'no', scorched: 'no' }
      const res = await request(bench.app).post('/api/assess').send({ kind: 'bench-motor', answers })
      return (res.body as CaseView['assessment']).next.expectedCost!
    }
    const before = await cost()
    await shop({ figures: { feeLow: 500_000, feeHigh: 500_000, newPrice: 900_000 } })
    expect(await cost()).toBeGreaterThan(before)
  })
})

describe('the figures of a case', () => {
  it('count before the shop’s in that case alone, until they are given back', async () => {
    const [one, other] = [await begin(), await begin()]
    await shop({ figures: { carriage: 700, minute: 100 } })
    const dear = { feeLow: 500_000, feeHigh: 500_000, newPrice: 900_000 }
    // nothing is planned before the danger questions
    const answers = { tingle: 'no', scorched: 'no' }
    await on(one, 'answers', { answers })
    const told = await on(one, 'figures', { figures: dear })
    expect(told.events.at(-1)).toEqual({ type: 'figured', figures: dear, forget: [] })
    expect(told.figures).toMatchObject({
      currency: { code: 'EUR', digits: 2 },
      inForce: { ...dear, carriage: 700 },
      from: { newPrice: 'case', carriage: 'shop', inspection: 'usual' },
      opened: false,
    })
    const plain = await on(other, 'answers', { answers, words: 'the other one' })
    expect(told.assessment.next.expectedCost).toBeGreaterThan(plain.assessment.next.expectedCost!)
    expect(plain.figures.from).toMatchObject({ newPrice: 'usual' })
    const back = await on(one, 'figures', { figures: {}, forget: ['feeLow', 'feeHigh', 'newPrice'] })
    expect(back.assessment).toEqual(plain.assessment)
  })
  it('end a warranty once something was done that opens the body', async () => {
    const opening = { ...fix('open-it', { bearing: 0.5 }, { setups: ['body-open'] }), kinds: ['bench-motor'] }
    const open = { ...setup('body-open', { opensBody: true }), kinds: ['bench-motor'] }
    const { setups, fixes } = tinyRulebook
    bench = await benchWith({
      knowledge: { ...tinyRulebook, setups: [...setups, open], fixes: [...fixes, opening] },
    })
    const id = await begin()
    const covered = await on(id, 'figures', { figures: { inWarranty: true, openingVoids: true } })
    expect(covered.figures.opened).toBe(false)
    const opened = await on(id, 'tried', { fix: 'open-it', outcome: 'no' })
    expect(opened.figures).toMatchObject({ opened: true, inForce: { inWarranty: true } })
    expect((await on(id, 'untried', { fix: 'open-it' })).figures.opened).toBe(false)
  })
  it.each<[string, object, number, RegExp]>([
    ['nothing at all', {}, 422, /say a figure/],
    ['a figure set and given back at once', { figures: { age: 3 }, forget: ['age'] }, 422, /not both/],
    ['half a cent', { figures: { minute: 0.5 } }, 422, /./],
    ['what was sent for an older state', { figures: { age: 3 }, count: 0 }, 409, /./],
  ])('refuse %s', async (_, body, status, words) => {
    const id = await begin()
    const res = await request(bench.app).post(`/api/cases/${id}/figures`).send(body).expect(status)
    expectDocumented(res, 'post', '/api/cases/{id}/figures')
    expect(JSON.stringify(res.body)).toMatch(words)
    const now = await request(bench.app).get(`/api/cases/${id}`)
    expect((now.body as CaseView).count).toBe(1)
  })
  it('are not taken once the case is finished', async () => {
    const id = await begin()
    await on(id, 'finish', { state: 'set-aside' })
    await on(id, 'figures', { figures: { age: 3 } }, 409)
  })
})
