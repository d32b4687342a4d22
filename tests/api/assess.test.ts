import request from 'supertest'
import { beforeAll, describe, expect, it } from 'vitest'
import type { AssessmentView, RulebookView } from '../../shared/api.js'
import { settingsFrom } from '../../server/decision/shop-settings.js'
import { Figures, usualRecord } from '../../shared/figures.js'
import type { Bench } from './bench.js'
import { benchWith } from './bench.js'
import { expectDocumented } from './documented.js'

const kind = 'bench-motor'
let bench: Bench
beforeAll(async () => {
  bench = await benchWith()
})

async function assessed(body: object, using = bench): Promise<AssessmentView> {
  const res = await request(using.app).post('/api/assess').send(body)
  expect(res.status, res.text).toBe(200)
  expectDocumented(res, 'post', '/api/assess')
  return res.body as AssessmentView
}

describe('GET /api/rulebook', () => {
  let book: RulebookView
  beforeAll(async () => {
    const res = await request(bench.app).get(`/api/rulebook?kind=${kind}`).expect(200)
    expectDocumented(res, 'get', '/api/rulebook')
    book = res.body as RulebookView
  })

  it('gives the causes with their share and the prior that is scored with', () => {
    expect(book.causes.map(({ id, per1000, exclusive }) => [id, per1000, exclusive])).toEqual([
      ['brushes', 400, false],
      ['cord', 300, false],
      ['bearing', 200, false],
      ['nothing-wrong', 100, true],
    ])
    for (const { prior } of book.causes) expect(prior).toBeGreaterThan(0)
  })
  it('gives the conditions of the rules as the engine takes them, and the question that each is over', () => {
    expect(book.findings.find(({ id }) => id === 'brush-short')).toEqual({
      id: 'brush-short',
      question: 'brush-length',
      when: { all: [{ fact: 'brush-length', operator: 'lessThan', value: 6 }] },
      topic: null,
      leak: 0.05,
      strengths: { brushes: 0.9 },
      running: false,
    })
  })
  it('gives money in major units: the parts of a fix together', () => {
    expect(book.fixes.map(({ id, parts, outcome }) => [id, parts, outcome])).toEqual([
      ['new-brushes', 6, null],
      ['new-cord', 13.75, null],
      ['oil', 0, 'oil-helps'],
      ['show-the-book', 0, null],
    ])
  })
  it('gives questions with unit and range, those that a fix answers included', () => {
    expect(book.questions.find(({ id }) => id === 'brush-length')).toMatchObject({
      kind: 'number',
      unit: 'mm',
      min: 0,
      max: 30,
      step: 'look-at-brushes',
    })
    expect(book.questions.find(({ id }) => id === 'oil-helps')).toMatchObject({
      kind: 'yes-no',
      unit: null,
      step: null,
    })
  })
  it('gives steps, set-ups and stops', () => {
    expect(book.steps.find(({ id }) => id === 'run-bare')).toMatchObject({
      questions: ['rough-bare'],
      minutes: 2,
      setup: ['blade-off'],
    })
    expect(book.setups.find(({ id }) => id === 'blade-off')).toMatchObject({
      needs: ['plug-out'],
      withPower: true,
    })
    expect(book.stops).toMatchObject([{ id: 'shock', grade: 'set-aside' }])
  })
  it.each([
    ['', /say which/],
    ['?kind=hovercraft', /no kind "hovercraft"; use bench-motor/],
    ['?kind=bench-motor&kind=bench-motor', /say which/],
    ['?kind=__proto__', /no kind/],
  ])('says which kinds there are when asked with "%s"', async (query, message) => {
    const res = await request(bench.app).get(`/api/rulebook${query}`).expect(422)
    expectDocumented(res, 'get', '/api/rulebook')
    expect(res.body).toMatchObject({
      errors: [{ parameter: 'kind', detail: expect.stringMatching(message) }],
    })
  })
})

describe('POST /api/assess', () => {
  it('needs no more than the kind', async () => {
    const { stop, causes, exact } = await assessed({ kind })
    expect(stop).toBeNull()
    expect(exact).toBe(true)
    expect(causes).toHaveLength(4)
  })
  it('gives the causes by probability, each at least as likely as to be alone', async () => {
    const { causes } = await assessed({ kind, answers: { 'cuts-out': 'yes', 'cord-flex': 'no' } })
    expect(causes[0]?.id).toBe('brushes')
    const chances = causes.map(({ probability }) => probability)
    expect(chances).toEqual([...chances].sort((a, b) => b - a))
    for (const { probability, sole } of causes) expect(sole).toBeLessThanOrEqual(probability + 1e-12)
  })
  it('tells what speaks for and against a cause, in decibans, with the answer that says so', async () => {
    const { causes } = await assessed({ kind, answers: { 'cuts-out': 'yes', 'cord-flex': 'no' } })
    const cord = causes.find(({ id }) => id === 'cord')
    expect(cord?.for).toMatchObject([
      { finding: 'cuts-out', question: 'cuts-out', says: 'It is so: cuts-out' },
    ])
    expect(cord?.against).toMatchObject([{ finding: 'cord-flex', question: 'cord-flex' }])
    for (const { decibans } of cord?.for ?? []) expect(decibans).toBeGreaterThan(0)
  })
  it('lets "can\'t tell" change no probability', async () => {
    const chances = ({ causes }: AssessmentView) => causes.map(({ id, probability }) => [id, probability])
    const answers = { 'cuts-out': 'yes' }
    expect(chances(await assessed({ kind, answers: { ...answers, hot: 'cant-tell' } }))).toEqual(
      chances(await assessed({ kind, answers })),
    )
  })
  it('stops at a danger, and goes on once it is lifted', async () => {
    const answers = { tingle: 'yes' }
    const stopped = await assessed({ kind, answers })
    expect(stopped.stop).toEqual({
      id: 'shock',
      grade: 'set-aside',
      now: ['Pull the plug', 'Set it aside'],
      firstAid: [],
    })
    expect(stopped.next.step).toBe('stop')
    const lifted = await assessed({ kind, answers, stopsLifted: ['shock'] })
    expect(lifted.stop).toBeNull()
    expect(lifted.next.step).not.toBe('stop')
  })
  it('takes the shop figures that are given and its own for the others', async () => {
    // 5000 for a service, carriage included; 18000 for a new one, of which a part is used up
    const figures = {
      feeLow: 500_000,
      feeHigh: 500_000,
      carriage: 0,
      inspection: 500_000,
      newPrice: 1_800_000,
    }
    const dear = await benchWith({ figures })
    const { sendIn, sendInPaid, sendInVain, replace, replaceRenewed } = settingsFrom(
      Figures.parse(figures),
      usualRecord.currency,
      false,
    )
    expect([sendIn, sendInPaid, sendInVain]).toEqual([5000, 5000, 5000])
    const given = { sendIn, sendInPaid, sendInVain, replace, replaceRenewed }
    // The danger questions come first and cost nothing, so they are answered here.
    const safe = { kind, answers: { tingle: 'no', scorched: 'no' } }
    const cheap = await assessed(safe)
    const own = await assessed(safe, dear)
    expect(own.next.expectedCost).toBeGreaterThan(cheap.next.expectedCost!)
    expect(await assessed({ ...safe, shop: given })).toEqual(own)
    expect(await assessed({ ...safe, shop: { skill: 'S2' } }, dear)).toEqual(own)
  })
  it('takes a reading as a number, within its range', async () => {
    const short = await assessed({ kind, answers: { 'brush-length': 3 } })
    const long = await assessed({ kind, answers: { 'brush-length': 12 } })
    expect(short.findings['brush-short']).toBe('yes')
    expect(long.findings['brush-short']).toBe('no')
  })

  it.each<[string, object, string, RegExp]>([
    ['no kind', {}, '#/kind', /./],
    ['a kind that is not there', { kind: 'hovercraft' }, '#/kind', /use bench-motor/],
    [
      'a question of no rulebook',
      { kind, answers: { 'smells-of-roses': 'yes' } },
      '#/answers/smells-of-roses',
      /no question/,
    ],
    [
      'a word for a number',
      { kind, answers: { 'brush-length': 'yes' } },
      '#/answers/brush-length',
      /a number of mm from 0 to 30/,
    ],
    [
      'a number out of range',
      { kind, answers: { 'brush-length': 31 } },
      '#/answers/brush-length',
      /from 0 to 30/,
    ],
    ['a number for yes or no', { kind, answers: { hot: 1 } }, '#/answers/hot', /"yes", "no" or "cant-tell"/],
    ['another word', { kind, answers: { hot: 'perhaps' } }, '#/answers/hot', /./],
    ['a truth value', { kind, answers: { hot: true } }, '#/answers/hot', /./],
    ['a fix of no rulebook', { kind, fixesTried: ['oil', 'prayer'] }, '#/fixesTried/1', /no fix "prayer"/],
    [
      'a count above the fixes',
      { kind, fixesTried: ['oil'], answeredAfter: { hot: 2 } },
      '#/answeredAfter/hot',
      /2 is more than the 1/,
    ],
    ['half a fix', { kind, answeredAfter: { hot: 0.5 } }, '#/answeredAfter/hot', /./],
    ['an unknown step', { kind, cannotDo: ['juggle'] }, '#/cannotDo/0', /no step or fix/],
    ['an unknown stop', { kind, stopsLifted: ['hunger'] }, '#/stopsLifted/0', /no stop/],
    ['an unknown set-up', { kind, standing: ['upside-down'] }, '#/standing/0', /no set-up/],
    ['a field that is not known', { kind, colour: 'red' }, '#/colour', /not known/],
    ['a shop figure below nothing', { kind, shop: { rate: -1 } }, '#/shop/rate', /./],
    ['a name that is none', { kind, answers: { 'a/b~c d': 'yes' } }, '#/answers/a~1b~0c%20d', /lower-case/],
    ['a list for a case', [], '#', /./],
  ])('refuses %s and says where', async (_, body, pointer, detail) => {
    const res = await request(bench.app).post('/api/assess').send(body).expect(422)
    expectDocumented(res, 'post', '/api/assess')
    const { errors } = res.body as { errors: { pointer: string; detail: string }[] }
    const [first] = errors
    expect(first?.pointer).toBe(pointer)
    expect(first?.detail).toMatch(detail)
  })
  it.each<[object, string]>([
    [{}, 'kind: is missing; give a text'],
    [{ kind: null }, 'kind: must be a text'],
    [
      { kind, answers: { hot: 'perhaps' } },
      'answers.hot: must be "yes", "no" or "cant-tell" or a number that fits',
    ],
    [{ kind, answers: ['hot'] }, 'answers: must be an object'],
    [{ kind, answeredAfter: { hot: 0.5 } }, 'answeredAfter.hot: must be a whole number'],
    [{ kind, shop: { rate: -1 } }, 'shop.rate: must be at least 0'],
    [{ kind, shop: { skill: 'S9' } }, 'shop.skill: must be "S1", "S2", "S3" or "S4"'],
    [
      { kind, fixesTried: Array.from({ length: 201 }, () => 'oil') },
      'fixesTried: must have at most 200 items',
    ],
  ])('says of %j what to send instead', async (body, detail) => {
    const res = await request(bench.app).post('/api/assess').send(body).expect(422)
    expect((res.body as { detail: string }).detail).toBe(detail)
  })
  // RFC 8259 §6: a number beyond what a double holds is well-formed JSON, so it reaches us as infinite.
  it('refuses a number that no machine holds', async () => {
    const res = await request(bench.app)
      .post('/api/assess')
      .type('json')
      .send(`{"kind":"${kind}","answers":{"brush-length":1e400}}`)
      .expect(422)
    expect(res.body).toMatchObject({ errors: [{ pointer: '#/answers/brush-length' }] })
  })
  it.each(['answers', 'answeredAfter', 'shop'])(
    'does not pass over the name __proto__ in %s',
    async (field) => {
      const res = await request(bench.app)
        .post('/api/assess')
        .type('json')
        .send(`{"kind":"${kind}","${field}":{"__proto__":{}}}`)
        .expect(422)
      expect((res.body as { errors: object[] }).errors).toEqual([
        { pointer: `#/${field}/__proto__`, detail: 'is not known here; leave it out' },
      ])
    },
  )
  it('lists everything that is wrong, not the first mistake', async () => {
    const res = await request(bench.app)
      .post('/api/assess')
      .send({
        kind,
        answers: { hot: 3, 'brush-length': 99, nose: 'yes' },
        fixesTried: ['prayer'],
        standing: ['tiptoe'],
      })
      .expect(422)
    const { errors, detail } = res.body as { errors: { pointer: string }[]; detail: string }
    expect(errors.map(({ pointer }) => pointer)).toEqual([
      '#/answers/hot',
      '#/answers/brush-length',
      '#/answers/nose',
      '#/fixesTried/0',
      '#/standing/0',
    ])
    expect(detail).toContain('5 values')
  })
})
