/** Practice for programs: the same moves as on the pages, nothing of the hidden tool before the end. */
import request from 'supertest'
import { beforeAll, describe, expect, it } from 'vitest'
import type { z } from 'zod'
import type { DebriefView, ExerciseView, LearnerView, LessonView } from '../../shared/practice-api.js'
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

async function post(path: string, id: string, body: object, status = 200, set = '') {
  const res = await request(bench.app)
    .post(`/api/practice${path.replace('{id}', id).replace('{set}', set)}`)
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

describe('a class', () => {
  const kind = 'universal-motor'
  let evening: string
  beforeAll(async () => {
    const made = await post('/classes', '', { name: 'Fridays' }, 201)
    evening = (made.body as { class: { id: string } }).class.id
    await post('/classes', '', { name: ' fridays' }, 422)
    await post('/classes/{id}/learners', evening, { name: 'Cem' }, 201)
  })

  it('has the same tool set for everybody, and closed', async () => {
    const causes = ['worn-brushes']
    const asked = { level, kind, seed: 5, causes, complaint: 'It sparks' }
    const made = (await post('/classes/{id}/set', evening, asked, 201)).body as {
      set: { id: string }
      heard: string[]
    }
    expect(made.heard).toEqual(['It sparks'])
    expect((await bench.register.setExercise(made.set.id)).setting).toMatchObject({ causes })
    await post('/classes/{id}/set/{set}/close', ofClass, {}, 404, made.set.id)
    const closed = await post('/classes/{id}/set/{set}/close', evening, {}, 200, made.set.id)
    expect(closed.body).toMatchObject({ set: { id: made.set.id, closedAt: expect.any(String) as unknown } })
    // the kind is drawn where none is asked for; with causes it has to be said
    await post('/classes/{id}/set', evening, { level }, 201)
    const wrong: [object, string][] = [
      [{ level: 'no-such-level' }, '#/level'],
      [{ level, kind: 'no-such-kind' }, '#/kind'],
      [{ level, causes }, '#/kind'],
      [{ ...asked, causes: ['worn-brushes', 'no-such-cause'] }, '#/causes/1'],
      [{ ...asked, seed: -1 }, '#/seed'],
    ]
    for (const [body, pointer] of wrong) {
      const res = await post('/classes/{id}/set', evening, body, 422)
      expect((res.body as { errors: object[] }).errors).toMatchObject([{ pointer }])
    }
    await post('/classes/{id}/set', 'no-class', { level }, 404)
  })

  it('has its lesson: started, joined, moved on, with who is where', async () => {
    expect((await get('/classes/{id}/lesson', evening)).body).toMatchObject({ lesson: null, goesOn: false })
    await post('/classes/{id}/lesson/next', evening, { seen: 1 }, 409)
    await post('/classes/{id}/lesson', evening, { level, kind: 'no-such-kind' }, 422)
    await post('/classes/{id}/lesson', evening, { level, kind }, 201)
    await post('/classes/{id}/lesson', evening, { level, kind }, 409)
    const round = (await post('/classes/{id}/lesson/next', evening, { seen: 1 })).body as z.infer<
      typeof LessonView
    >
    await post('/classes/{id}/lesson/next', evening, { seen: 1 }, 409)
    const [cem] = round.people
    const begun = (await post('/learners/{id}/exercises', cem!.learner.id, { set: round.lesson!.play }, 201))
      .body as Exercise
    await post('/exercises/{id}/moves', begun.id, { moves: [{ type: 'disinfected' }], count: 0 })
    const now = (await get('/classes/{id}/lesson', evening)).body as z.infer<typeof LessonView>
    expect(now.people).toMatchObject([{ exercise: begun.id, moves: 1, ended: false }])
    expect(JSON.stringify(now)).not.toMatch(/seed|setting|causes/)
    for (const seen of [2, 3, 4]) await post('/classes/{id}/lesson/next', evening, { seen })
    expect((await get('/classes/{id}/lesson', evening)).body).toMatchObject({ goesOn: false })
    // closed for all
    await post('/exercises/{id}/moves', begun.id, { moves: [{ type: 'disinfected' }], count: 1 }, 409)
  })
})
