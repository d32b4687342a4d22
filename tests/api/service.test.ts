/** The box and the return by the API. */
import request from 'supertest'
import { beforeEach, describe, expect, it } from 'vitest'
import type { CaseView, ProblemDetails } from '../../shared/api.js'
import { tinyRulebook } from '../cases/tiny-rulebook.js'
import type { Bench } from './bench.js'
import { benchWith } from './bench.js'
import { expectDocumented } from './documented.js'

let bench: Bench
let id: string
const cause = tinyRulebook.causes[0]!.id
const back = {
  fee: 4850,
  carriage: 900,
  left: '2026-03-02',
  back: '2026-03-10',
  mended: true,
  state: 'running-again',
}
const on = async (path: string, body: object, status = 200): Promise<CaseView> => {
  const res = await request(bench.app).post(`/api/cases/${id}/${path}`).send(body)
  expect(res.status, res.text).toBe(status)
  expectDocumented(res, 'post', `/api/cases/{id}/${path}`)
  return res.body as CaseView
}
beforeEach(async () => {
  bench = await benchWith()
  const res = await request(bench.app).post('/api/cases').send({ kind: 'bench-motor' }).expect(201)
  id = (res.body as CaseView).id
  await on('answers', { answers: { tingle: 'no', scorched: 'no', 'cuts-out': 'yes' } })
})

describe('a tool that goes to a service', () => {
  it('has a limit for the quote, on the bench and in the box', async () => {
    expect((await on('quote-limit', { amount: 4500 })).quoteLimit).toBe(4500)
    await on('finish', { state: 'boxed-for-service' })
    expect((await on('quote-limit', { amount: null })).quoteLimit).toBeNull()
    await on('quote-limit', { amount: 45.5 }, 422)
  })
  it('comes back with what it was, which the list tells too', async () => {
    await on('finish', { state: 'boxed-for-service' })
    const view = await on('came-back', { ...back, cause, count: 2 })
    expect(view).toMatchObject({
      state: 'running-again',
      outcome: { cause, by: 'service' },
      cameBack: { ...back, cause },
    })
    const { body } = await request(bench.app).get('/api/cases').expect(200)
    expect(body).toMatchObject({ cases: [{ id, outcome: { cause, by: 'service' } }] })
    expect(
      await on('came-back', { ...back, mended: false, state: 'set-aside', found: 'beyond repair' }),
    ).toMatchObject({
      state: 'set-aside',
      outcome: null,
    })
    expect(await on('still-away', {})).toMatchObject({
      state: 'boxed-for-service',
      outcome: null,
      cameBack: null,
    })
  })
  it('does not come back that never went, nor with a cause or a day that cannot be', async () => {
    await on('came-back', back, 409)
    await on('still-away', {}, 409)
    await on('finish', { state: 'boxed-for-service' })
    for (const [wrong, pointer] of [
      [{ cause: 'gremlins' }, '#/cause'],
      [{ back: '2026-03-01' }, '#/back'],
      [{ left: '2026-13-01' }, '#/left'],
      [{ fee: -1 }, '#/fee'],
    ] as const) {
      const problem = (await on('came-back', { ...back, ...wrong }, 422)) as unknown as ProblemDetails
      expect(problem.errors?.map((it) => it.pointer)).toContain(pointer)
    }
  })
  it('does not run again with a danger on it, until what lifts it was done', async () => {
    await on('answers', { answers: { tingle: 'yes' } })
    await on('finish', { state: 'boxed-for-service' })
    await on('came-back', back, 409)
    await on('lift', { stop: 'shock', by: 'the service, test passed' })
    expect((await on('came-back', back)).state).toBe('running-again')
  })
})
