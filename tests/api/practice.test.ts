/** Practice for programs: the same moves as on the pages, nothing of the hidden tool before the end. */
import request from 'supertest'
import { beforeAll, describe, expect, it } from 'vitest'
import type { z } from 'zod'
import type { DebriefView, ExerciseView, LearnerView } from '../../shared/practice-api.js'
import { knowledge } from '../the-rulebook.js'
import { benchWith, OPENED, type Bench } from './bench.js'
import { expectDocumented } from './documented.js'

const level = 'sweeping-the-floor'
let bench: Bench
let ofClass: string
let learner: string

beforeAll(async () => {
  bench = await benchWith({ knowledge })
  ofClass = (await bench.register.addClass({ name: 'Evenings', at: OPENED })).id
  const added = await post(`/classes/{id}/learners`, ofClass, { name: 'Ana' }, 201)
  learner = (added.body as { learner: { id: string } }).learner.id
})

async function post(path: string, id: string, body: object, status = 200) {
  const res = await request(bench.app)
    .post(`/api/practice${path.replace('{id}', id)}`)
    .send(body)
  expect(res.status, res.text.slice(0, 300)).toBe(status)
  expectDocumented(res, 'post', `/api/practice${path}`)
  return res
}
async function get(path: string, id = '', status = 200) {
  const res = await request(bench.app).get(`/api/practice${path.replace('{id}', id)}`)
  expect(res.status, res.text.slice(0, 300)).toBe(status)
  expectDocumented(res, 'get', `/api/practice${path}`)
  return res
}
type Exercise = z.infer<typeof ExerciseView>

describe('an exercise', () => {
  it('is begun, played move by move, ended and gone through again', async () => {
    expect((await get('/levels')).body).toMatchObject({ levels: expect.arrayContaining([]) as unknown })
    const begun = (await post('/learners/{id}/exercises', learner, { level }, 201)).body as Exercise
    expect(begun).toMatchObject({ learner, level, count: 0, over: null, runs: false, set: null })
    expect(begun.heard.length).toBeGreaterThan(0)
    const looks = {
      moves: [
        { type: 'stood', setup: 'plug-out' },
        { type: 'looked', step: 'danger-signs' },
      ],
    }
    const after = (await post('/exercises/{id}/moves', begun.id, { ...looks, count: 0 })).body as Exercise
    expect(after.count).toBe(2)
    expect(after.standing).toContain('plug-out')
    expect(after.moves[1]!.told.length).toBeGreaterThan(3)
    // the same twice is made once; from an older state nothing is made
    expect((await post('/exercises/{id}/moves', begun.id, { ...looks, count: 0 })).body).toEqual(after)
    await post('/exercises/{id}/moves', begun.id, { moves: [{ type: 'disinfected' }], count: 1 }, 409)
    await get('/exercises/{id}/debrief', begun.id, 409)
    await post(
      '/exercises/{id}/moves',
      begun.id,
      { moves: [{ type: 'tried', fix: 'no-such-fix' }], count: 2 },
      422,
    )
    await post('/exercises/{id}/moves', begun.id, { moves: [{ type: 'ended', way: 'send-in' }], count: 2 })
    await post('/exercises/{id}/moves', begun.id, { moves: [{ type: 'disinfected' }], count: 3 }, 409)
    const debrief = (await get('/exercises/{id}/debrief', begun.id)).body as z.infer<typeof DebriefView>
    expect(debrief).toMatchObject({ over: 'send-in', left: debrief.causes })
    expect(debrief.steps).toHaveLength(3)
    // sending in after the danger signs has about 40: the score table
    expect(debrief.score).toBeGreaterThan(20)
    expect(debrief.score).toBeLessThan(60)
    const told = (await get('/learners/{id}', learner)).body as z.infer<typeof LearnerView>
    expect(told.ended.map(({ exercise, causes }) => [exercise, causes])).toEqual([[begun.id, debrief.causes]])
    expect(told.underWay).toEqual([])
  })

  it('that was set tells nobody what it was before the class has ended', async () => {
    const other = (await bench.register.addLearner({ name: 'Ben', class: ofClass, at: OPENED })).id
    const setting = { hideSuspects: false, hidePrices: false }
    const set = await bench.register.addSetExercise({
      class: ofClass,
      kind: 'universal-motor',
      level,
      seed: 3,
      setting,
      at: OPENED,
    })
    const begun = (await post('/learners/{id}/exercises', other, { set: set.id }, 201)).body as Exercise
    await post('/exercises/{id}/moves', begun.id, { moves: [{ type: 'ended', way: 'set-aside' }], count: 0 })
    await get('/exercises/{id}/debrief', begun.id, 409)
    expect(((await get('/learners/{id}', other)).body as z.infer<typeof LearnerView>).ended).toEqual([])
    expect(JSON.stringify((await get('/classes/{id}', ofClass)).body)).not.toMatch(/seed|setting|causes/)
    await bench.register.closeSetExercise(set.id, OPENED)
    await get('/exercises/{id}/debrief', begun.id)
  })

  it('wants a level or what was set, and a class that is there', async () => {
    await post('/learners/{id}/exercises', learner, {}, 422)
    await post('/learners/{id}/exercises', learner, { level: 'no-such-level' }, 422)
    await post('/learners/{id}/exercises', 'nobody', { level }, 404)
    await get('/classes/{id}', 'no-class', 404)
    expect((await get('/classes')).body).toMatchObject({ classes: [{ id: ofClass }] })
  })
})
