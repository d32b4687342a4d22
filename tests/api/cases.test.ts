import request from 'supertest'
import { beforeEach, describe, expect, it } from 'vitest'
import type { CaseView } from '../../shared/api.js'
import type { Bench } from './bench.js'
import { benchWith, OPENED } from './bench.js'
import { expectDocumented } from './documented.js'

let bench: Bench
beforeEach(async () => {
  bench = await benchWith()
})

async function post(path: string, body: object, status = 200): Promise<CaseView> {
  const res = await request(bench.app).post(`/api/cases/${path}`).send(body)
  expect(res.status, res.text).toBe(status)
  expectDocumented(res, 'post', path === '' ? '/api/cases' : `/api/cases/{id}/${path.split('/')[1]}`)
  return res.body as CaseView
}
/** The danger lines, each looked at. */
const safe = { tingle: 'no', scorched: 'no' }
const begin = async () => (await post('', { kind: 'bench-motor', tool: ' Chair 2 ' }, 201)).id
const get = async (id: string) => {
  const res = await request(bench.app).get(`/api/cases/${id}`).expect(200)
  expectDocumented(res, 'get', '/api/cases/{id}')
  return res.body as CaseView
}
const problem = async (path: string, body: object, status: number) =>
  (await post(path, body, status)) as unknown as {
    detail: string
    type: string
    errors: { pointer: string }[]
  }

describe('a case from beginning to end', () => {
  it('is told where it is', async () => {
    const res = await request(bench.app).post('/api/cases').send({ kind: 'bench-motor' }).expect(201)
    expect(res.headers['location']).toBe('/api/cases/case1')
    expect(res.body).toMatchObject({
      id: 'case1',
      tool: '',
      state: 'on-the-bench',
      begunAt: OPENED,
      count: 0,
    })
  })
  it('answers, takes back, tries, finishes and comes back', async () => {
    const id = await begin()
    const told = await post(`${id}/answers`, { answers: { 'cuts-out': 'yes', hot: 'no' }, words: 'cuts out' })
    expect(told.events).toEqual([
      {
        type: 'answered',
        step: 'how-it-runs',
        answers: { 'cuts-out': 'yes', hot: 'no' },
        when: 'now',
        words: 'cuts out',
      },
    ])
    expect((await post(`${id}/take-back`, { questions: ['hot'] })).situation.answers).toEqual({
      'cuts-out': 'yes',
    })
    expect((await post(`${id}/answers`, { answers: { 'brush-length': 4 } })).situation.standing).toEqual([
      'plug-out',
      'caps-out',
    ])
    expect((await post(`${id}/cannot-do`, { id: 'run-bare' })).situation.cannotDo).toEqual(['run-bare'])
    expect((await post(`${id}/cannot-do`, { id: 'run-bare', can: true })).situation.cannotDo).toEqual([])
    await post(`${id}/answers`, { answers: safe })
    expect((await post(`${id}/tried`, { fix: 'new-cord', outcome: 'no' })).situation.fixesTried).toEqual([
      'new-cord',
    ])
    expect((await post(`${id}/untried`, { fix: 'new-cord' })).situation.fixesTried).toEqual([])
    expect((await problem(`${id}/untried`, { fix: 'new-cord' }, 409)).detail).toMatch(/taken back already/)
    await post(`${id}/tried`, { fix: 'new-brushes', outcome: 'cured' })
    bench.wait(30)
    const finished = await post(`${id}/finish`, {
      state: 'running-again',
      cause: 'brushes',
      note: 'Both',
      disinfected: true,
    })
    expect(finished).toMatchObject({ state: 'running-again', changedAt: '2026-03-02T09:30:00.000Z' })
    expect(finished.events.slice(-2)).toEqual([
      { type: 'disinfected', done: true },
      { type: 'finished', state: 'running-again', cause: 'brushes', note: 'Both' },
    ])
    expect((await post(`${id}/reopen`, {})).state).toBe('on-the-bench')
    expect((await get(id)).count).toBe(finished.count + 1)
  })
  it('has the same assessment as its situation has without a case', async () => {
    const id = await begin()
    const { situation, assessment } = await post(`${id}/answers`, { answers: { 'cuts-out': 'yes' } })
    const res = await request(bench.app).post('/api/assess').send(situation).expect(200)
    expect(res.body).toEqual(assessment)
  })
  it('leaves no trace of an answer that was taken back', async () => {
    const id = await begin()
    const before = await post(`${id}/answers`, { answers: { 'cuts-out': 'yes' } })
    await post(`${id}/answers`, { answers: { 'brush-length': 2 } })
    const after = await post(`${id}/take-back`, { questions: ['brush-length'] })
    expect([after.situation, after.assessment]).toEqual([before.situation, before.assessment])
  })
  it('is listed with its complaint, open or finished', async () => {
    const [one, two] = [await begin(), await begin()]
    await post(`${one}/answers`, { answers: {}, words: 'it hums' })
    await post(`${two}/finish`, { state: 'boxed-for-service' })
    const listed = async (query: string) => {
      const res = await request(bench.app).get(`/api/cases${query}`).expect(200)
      expectDocumented(res, 'get', '/api/cases')
      return (res.body as { cases: { id: string; words: string }[] }).cases.map(({ id, words }) => [
        id,
        words,
      ])
    }
    expect(await listed('?open=true')).toEqual([[one, 'it hums']])
    expect(await listed('?open=false')).toEqual([[two, null]])
    expect(await listed('')).toHaveLength(2)
    const res = await request(bench.app).get('/api/cases?open=perhaps').expect(422)
    expectDocumented(res, 'get', '/api/cases')
  })
})

describe('what a case cannot take', () => {
  it('changes nothing when the sender had not seen all', async () => {
    const id = await begin()
    await post(`${id}/answers`, { answers: { hot: 'yes' }, count: 0 })
    const { type } = await problem(`${id}/answers`, { answers: { hot: 'no' }, count: 0 }, 409)
    expect(type).toBe('/api/problems/moved-on')
    expect((await get(id)).situation.answers).toEqual({ hot: 'yes' })
  })
  it.each([
    ['answers', { answers: { hot: 'yes' } }],
    ['tried', { fix: 'oil', outcome: 'no' }],
    ['finish', { state: 'set-aside' }],
  ])('is finished, so %s waits until it is on the bench again', async (path, body) => {
    const id = await begin()
    await post(`${id}/answers`, { answers: safe })
    await post(`${id}/finish`, { state: 'boxed-for-service' })
    expect((await problem(`${id}/${path}`, body, 409)).detail).toMatch(/back on the bench/)
    await post(`${id}/reopen`, {})
    await post(`${id}/${path}`, body)
  })
  it('is on the bench already', async () => {
    await problem(`${await begin()}/reopen`, {}, 409)
  })
  it('is set aside: no fix, no "running again" before the act that lifts it', async () => {
    const id = await begin()
    const told = { answers: { tingle: 'yes', scorched: 'no' } }
    expect((await post(`${id}/answers`, told)).assessment.stop?.id).toBe('shock')
    expect((await problem(`${id}/tried`, { fix: 'oil', outcome: 'cured' }, 409)).detail).toMatch(/set aside/)
    await problem(`${id}/finish`, { state: 'running-again' }, 409)
    const [stop] = (await post(`${id}/lift`, { stop: 'shock', by: 'The tester, on paper' })).situation
      .stopsLifted
    expect(stop).toBe('shock')
    await post(`${id}/tried`, { fix: 'new-cord', outcome: 'cured' })
    expect((await post(`${id}/answers`, { answers: { tingle: 'yes' } })).assessment.stop?.id).toBe('shock')
    await post(`${id}/finish`, { state: 'set-aside' })
  })
  it('has danger signs that nobody settled: no fix, no "running again"; "can’t tell" twice and nothing runs here', async () => {
    const id = await begin()
    const unsure = { answers: { tingle: 'no', scorched: 'cant-tell' } }
    const said = (await post(`${id}/answers`, unsure)).assessment
    expect(said.unsettled).toEqual(['scorched'])
    expect((await problem(`${id}/tried`, { fix: 'oil', outcome: 'cured' }, 409)).detail).toMatch(/scorched/)
    const running = { state: 'running-again' }
    expect((await problem(`${id}/finish`, running, 409)).detail).toMatch(/scorched/)
    const { situation, assessment } = await post(`${id}/answers`, unsure)
    expect(situation.cannotDo).toEqual(['dangers'])
    expect(['send-in', 'retire', 'ask', 'check']).toContain(assessment.next.step)
    expect(assessment.next.id).not.toBe('dangers')
    await post(`${id}/answers`, { answers: safe })
    await post(`${id}/finish`, running)
  })
  it.each([
    ['answers', { answers: { roses: 'yes' } }, '#/answers/roses'],
    ['answers', { answers: {} }, '#/answers'],
    ['answers', { answers: { hot: 'yes' }, step: 'juggle' }, '#/step'],
    ['answers', { answers: { hot: 'yes' }, words: 'x'.repeat(301) }, '#/words'],
    ['take-back', { questions: ['roses'] }, '#/questions/0'],
    ['take-back', { questions: [] }, '#/questions'],
    ['tried', { fix: 'prayer', outcome: 'no' }, '#/fix'],
    ['tried', { fix: 'oil', outcome: 'maybe' }, '#/outcome'],
    ['cannot-do', { id: 'juggle' }, '#/id'],
    ['lift', { stop: 'hunger', by: 'me too' }, '#/stop'],
    ['lift', { stop: 'shock', by: '' }, '#/by'],
    ['finish', { state: 'on-the-bench' }, '#/state'],
    ['finish', { state: 'set-aside', cause: 'gremlins' }, '#/cause'],
    ['reopen', { because: 'fun' }, '#/because'],
  ])('refuses %s %j and says where', async (path, body, pointer) => {
    const id = await begin()
    const { errors } = await problem(`${id}/${path}`, body, 422)
    expect(errors.map((error) => error.pointer)).toEqual([pointer])
    expect((await get(id)).count).toBe(0)
  })
  it.each(['nine', '%00', "1'%20or%20'1", '..%2f..%2fetc', 'x'.repeat(2000)])(
    'is not there: %s',
    async (id) => {
      const res = await request(bench.app).get(`/api/cases/${id}`).expect(404)
      expectDocumented(res, 'get', '/api/cases/{id}')
    },
  )
})
