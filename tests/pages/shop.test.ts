/** The shop's own figures: read, changed, refused all at once, and reckoned with. */
import request from 'supertest'
import { describe, expect, it } from 'vitest'
import type { ShopView } from '../../shared/api.js'
import { FigureName } from '../../shared/figures.js'
import { shopFieldNames } from '../../server/pages/shop/shop-page.js'
import { toolNames } from '../../server/decision/figure-sorts.js'
import { benchWith } from '../api/bench.js'
import { Visitor } from './visitor.js'

type Bench = Awaited<ReturnType<typeof benchWith>>

const good = {
  skill: 'S3',
  canSafetyTest: 'yes',
  minute: '1,20',
  feeLow: '55',
  feeHigh: '75.50',
  daysAwayLow: '5',
  daysAwayHigh: '12',
  hasSpare: 'no',
  dayWithout: '0',
  newPrice: '180',
  currency: 'EUR',
  interest: '4,5',
}
const post = (app: Parameters<typeof request>[0], body: object) =>
  request(app)
    .post('/shop')
    .type('form')
    .set('Sec-Fetch-Site', 'same-origin')
    .send({ seen: 0, mains: '50', ...body })
const own = async ({ app }: Bench) => {
  const { body } = await request(app).get('/api/shop')
  return body as ShopView
}
const kept = async (bench: Bench, body: object) => {
  const { version: seen } = await own(bench)
  await post(bench.app, { seen, ...body })
    .expect(303)
    .expect('Location', '/shop?kept=yes')
  return own(bench)
}
const refused = async ({ app }: Bench, body: object) => (await post(app, body).expect(422)).text

describe('the page of the shop’s figures', () => {
  it('shows what holds, with the code of the currency, the finer figures folded', async () => {
    const { app } = await benchWith({ figures: { feeLow: 6250 } })
    const { text } = await request(app).get('/shop').expect(200)
    expect(text).toMatch(/name="feeLow" value="62.50"/)
    expect(text).toMatch(/name="minute" value="0.80"/)
    expect(text).toMatch(/value="S2" checked/)
    expect(text).toContain('EUR a minute')
    expect(text).toMatch(/<details class="more">/)
  })
  it('has every figure but those of one tool, each once', () => {
    expect(new Set(shopFieldNames).size).toBe(shopFieldNames.length)
    // the set of test limits is chosen from a list of its own
    expect([...shopFieldNames, ...toolNames, 'limitSet'].sort()).toEqual([...FigureName.options].sort())
  })
  it('keeps new ones, a comma for a point too, in minor units; what stays usual stays unset', async () => {
    const bench = await benchWith()
    const { figures, inForce } = await kept(bench, good)
    expect(figures).toEqual({
      minute: 120,
      skill: 'S3',
      canSafetyTest: true,
      feeLow: 5500,
      feeHigh: 7550,
      newPrice: 18_000,
      interest: 0.045,
    })
    expect(inForce).toMatchObject({ daysAwayLow: 5, daysAwayHigh: 12, carriage: 1000 })
    const { text } = await request(bench.app).get('/shop?kept=yes')
    expect(text).toContain('Kept.')
    expect(text).toMatch(/name="interest" value="4.5"/)
  })
  it('gives a figure back that was emptied, and keeps one that is set although it is the usual', async () => {
    const bench = await benchWith({ figures: { minute: 120, carriage: 900, partsToBeHad: false } })
    const { figures } = await kept(bench, { ...good, minute: '0.80', carriage: '' })
    expect(figures.minute).toBe(80)
    expect(figures).not.toHaveProperty('carriage')
    expect(figures.partsToBeHad).toBe(false) // not of this page
  })
  it('takes one end of a range for a fixed price', async () => {
    const bench = await benchWith()
    expect((await kept(bench, { ...good, feeLow: '65', feeHigh: '' })).figures).toMatchObject({
      feeLow: 6500,
      feeHigh: 6500,
    })
  })
  it('changes the currency with all sums written again in it', async () => {
    const bench = await benchWith()
    const inYen = { ...good, minute: '120', feeLow: '6000', feeHigh: '', newPrice: '24000', currency: 'jpy' }
    expect(await kept(bench, inYen)).toMatchObject({
      currency: { code: 'JPY', digits: 0 },
      figures: { minute: 120, feeLow: 6000, feeHigh: 6000 },
    })
    const { text } = await request(bench.app).get('/shop')
    expect(text).toMatch(/name="newPrice" value="24000"/)
    expect(text).toContain('JPY a minute')
  })
})

describe('who changed it', () => {
  it('says which figures, the currency too', async () => {
    const bench = await benchWith()
    await kept(bench, { ...good, currency: 'USD' })
    await kept(bench, { ...good, currency: 'USD', minute: '1.50' })
    const { text } = await request(bench.app).get('/shop')
    const [last, first] = [...text.matchAll(/<li>([^<]*(?:bench|currency)[^<]*)<\/li>/g)].map(
      ([, words]) => words,
    )
    expect(last).toContain('a minute at the bench')
    expect(last).not.toContain('a new one')
    expect(first).toContain('a new one')
    expect(first).toContain('currency')
  })
})

describe('what makes no sense', () => {
  it('is refused, all of it said, and nothing is lost', async () => {
    const bench = await benchWith()
    const text = await refused(bench, {
      ...good,
      minute: 'much',
      feeLow: '-4',
      newPrice: '12.505',
      skill: 'S9',
      currency: 'ZZZ',
    })
    expect(text).toMatch(/<title>Error: /)
    expect(text).toContain('5 things to put right')
    expect(text).toContain('A minute at the bench: enter an amount of 0 or more, such as 12.50 or 12,50')
    expect(text).toContain('Fee of a service: enter an amount of 0 or more')
    expect(text).toContain('A new one: EUR has nothing finer than 0.01; enter it like 12.50 or 12,50')
    expect(text).toContain('Choose an answer: Who works at the bench?')
    expect(text).toContain('Currency: “ZZZ” is no currency; use its three letters, such as EUR')
    for (const field of ['minute', 'feeLow', 'newPrice', 'skill', 'currency'])
      expect(text).toMatch(new RegExp(`href="#${field}"[\\s\\S]* id="${field}"`))
    expect(text).toMatch(/name="minute" value="much"/)
    expect(text).toMatch(/name="newPrice" value="12.505"/)
    expect(text).toMatch(/name="feeHigh" value="75.50"/)
    expect((await own(bench)).figures).toEqual({})
  })
  it('opens the fold that it stands in', async () => {
    const text = await refused(await benchWith(), { ...good, newLife: '0', interest: '101' })
    expect(text).toMatch(/<details class="more" open>/)
    expect(text).toContain('Years that a new one serves: enter a number from 0.25 to 60')
    expect(text).toContain('Interest: enter a number from 0 to 100')
  })
  it.each([
    ['a sum of a thousand with a comma', { minute: '1,250' }],
    ['cents of a yen', { currency: 'JPY', feeLow: '6000', feeHigh: '7000', newPrice: '1' }],
    ['days of more than a year', { daysAwayHigh: '366' }],
    ['a range that is upside down', { feeLow: '90', feeHigh: '10' }],
    ['a minute that costs more than a new tool', { minute: '180.01' }],
    ['a day that costs more than ten new tools', { dayWithout: '1800.01' }],
    ['a number in words', { newPrice: '1e2' }],
    ['no currency', { currency: '' }],
    ['no answer', { hasSpare: '' }],
  ])('%s', async (_, fields) => {
    const bench = await benchWith()
    await refused(bench, { ...good, ...fields })
    expect(await own(bench)).toMatchObject({ currency: { code: 'EUR' }, figures: {} })
  })
})

describe('on the bench', () => {
  const told = {
    type: 'answered' as const,
    when: 'now' as const,
    step: 'complaint',
    answers: {
      tingle: 'no',
      scorched: 'no',
      'cuts-out': 'yes',
      'cord-flex': 'no',
      'brush-length': 3,
    } as const,
  }
  const danger = { ...told, step: 'dangers', answers: { tingle: 'no', scorched: 'no' } as const }
  const at = '2026-03-02T09:00:00.000Z'
  const begun = async (bench: Bench) => {
    const { id } = await bench.cases.begin({ kind: 'bench-motor', tool: 'Chair 2', at })
    await bench.cases.append(id, [told, danger], at)
    return id
  }

  it('the fix says when to give up, in the shop’s own money, and the plan does so', async () => {
    const bench = await benchWith({
      figures: { feeLow: 1400, feeHigh: 1400, carriage: 0, inspection: 0, serviceMends: 1 },
    })
    const me = new Visitor(bench.app)
    const id = await begun(bench)
    await bench.cases.append(id, { type: 'cannot-do', id: 'oil' }, at)
    await me.open(`/cases/${id}`)
    expect(me.heading).toBe('new-brushes')
    expect(me.words).toContain('If this does not do it, sending in is cheaper (about €14).')
    expect(me.words).toMatch(/Do not spend more than about (\d+ minutes|a minute) on it/)
    await bench.cases.append(id, { type: 'tried', fix: 'new-brushes', outcome: 'no' }, at)
    await me.open(`/cases/${id}`)
    await me.send(`/cases/${id}/now`)
    await me.open(`/cases/${id}`)
    expect(me.heading).toBe('Send it in')
    expect(me.words).toContain('about €14')
    await post(bench.app, { ...good, seen: 1, feeLow: '14', feeHigh: '14', currency: 'USD' }).expect(303)
    expect((await me.open(`/cases/${id}`)).words).toContain('$')
  })
  it('says nothing of giving up where another way is still worth it', async () => {
    const bench = await benchWith({ figures: { feeLow: 90_000, feeHigh: 90_000, newPrice: 500_000 } })
    const me = new Visitor(bench.app)
    await me.open(`/cases/${await begun(bench)}`)
    expect(me.heading).toBe('new-brushes')
    expect(me.words).not.toContain('When to give up')
  })
  it('what was said of the figures of a tool stands among what was said and done', async () => {
    const bench = await benchWith()
    const id = await begun(bench)
    const figures = { newPrice: 12_950, age: 3, hasSpare: true, interest: 0.04 }
    await bench.cases.append(id, { type: 'figured', figures, forget: ['minute'] }, at)
    const me = new Visitor(bench.app)
    await me.open(`/cases/${id}/answers`)
    expect(me.words).toContain('Figures of this tool')
    expect(me.words).toContain(
      'A spare stands in yes; a new one €129.50; age 3 years; interest a year 4 in 100.',
    )
    expect(me.words).toContain('Given back to the shop’s: a minute at the bench.')
  })
})

describe('two who change the figures at once', () => {
  const bodyOf = (text: string, more: object) => ({
    ...good,
    seen: /name="seen" value="(\d+)"/.exec(text)![1],
    ...more,
  })
  it('the second is told, sees both, and can keep what they typed', async () => {
    const bench = await benchWith()
    const { text } = await request(bench.app).get('/shop').expect(200)
    await post(bench.app, bodyOf(text, { minute: '1.00' })).expect(303)
    const second = await post(bench.app, bodyOf(text, { minute: '1.50' })).expect(409)
    expect(second.text).toMatch(/name="minute" value="1.50"/)
    expect(second.text).toMatch(/Somebody has put in: 1.00/)
    expect((await own(bench)).figures.minute).toBe(100)
    await post(bench.app, bodyOf(second.text, { minute: '1.50' })).expect(303)
    expect((await own(bench)).figures.minute).toBe(150)
  })
  it('programs too, where they say what they had seen', async () => {
    const bench = await benchWith()
    const { version } = await own(bench)
    const set = (figures: object, seen?: number) =>
      request(bench.app)
        .post('/api/shop')
        .send({ figures, ...(seen !== undefined && { version: seen }) })
    await set({ minute: 90 }, version).expect(200)
    await set({ minute: 95 }, version).expect(409)
    await set({ feeLow: 4000 }).expect(200)
    expect((await own(bench)).figures).toEqual({ minute: 90, feeLow: 4000 })
  })
})
