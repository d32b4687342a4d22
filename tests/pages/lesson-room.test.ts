/** The room of a lesson: who is here, what comes in, and whom a set exercise waits for. By this project's own rules. */
import { beforeEach, expect, it } from 'vitest'
import { setFor } from '../../server/practice/hushed.js'
import type { Bench } from '../api/bench.js'
import { benchWith } from '../api/bench.js'
import { knowledge } from '../the-rulebook.js'
import type { ClassAtWork } from './class-at-work.js'
import { classAtWork, kind, level, outcomeWith } from './class-at-work.js'
import { Visitor } from './visitor.js'

let bench: Bench
let me: Visitor
let work: ClassAtWork
let home: string
beforeEach(async () => {
  bench = await benchWith({ knowledge })
  me = new Visitor(bench.app)
  work = await classAtWork(bench.register)
  home = `/practice/classes/${work.id}`
})

const lesson = async () => (await bench.register.latestLesson(work.id))!
const start = () => me.post(`${home}/lesson`, { do: 'start', level, kind })
const goOn = async () =>
  me.post(`${home}/lesson`, { do: 'next', seen: String((await lesson()).parts.length) })
const joins = async (name: string, beside = '') => {
  const { word, pin } = (await bench.register.doorOf(work.id))!
  await me.post('/join', { word, pin, name, beside })
}
const peopleHere = async () => {
  await me.open(`${home}/lesson`)
  return [...me.html.matchAll(/<bdi>([^<]+)<\/bdi><\/b> here/g)].map(([, name]) => name).sort()
}

it('only whose phone joined is here, both of two on one; a join in between takes no press from the instructor', async () => {
  await start()
  expect(await peopleHere()).toEqual([])
  await joins('ana', 'José María')
  await joins('Ana')
  expect(await peopleHere()).toEqual(['Ana', 'José María'])
  await joins('Somebody new')
  expect((await lesson()).joined).toHaveLength(3)
  await goOn()
  expect((await lesson()).parts.map(({ id }) => id)).toEqual(['brief', 'play'])
  expect((await lesson()).joined).toHaveLength(3)
})

it('the brief tells instructor and wall what comes in, and nothing of an earlier tool; that tool is then given out', async () => {
  await me.open(`${home}/wall`)
  expect(me.html).toContain('It cuts in and out.')
  await start()
  await me.open(`${home}/lesson`)
  const coming = /id="coming">([^<]+)</.exec(me.html)![1]!
  expect(coming.length).toBeGreaterThan(5)
  await me.open(`${home}/wall`)
  expect(me.html).not.toContain('It cuts in and out.')
  expect(me.html).not.toContain('have ended')
  expect(me.html).toContain(coming)
  await goOn()
  await me.open(`${home}/wall`)
  expect(me.html).toContain(coming)
  const { play, comes } = await lesson()
  expect((await bench.register.setExercise(play!)).seed).toBe(comes!.seed)
})

it('who comes later holds nobody back, until they begin it; set before anybody came, it is for all', () => {
  const set = { id: 'set', setAt: '2026-03-02T09:00:00.000Z' }
  const old = { id: 'old', since: '2026-03-02T09:00:00.000Z' }
  const late = { id: 'late', since: '2026-03-02T09:00:01.000Z' }
  expect(setFor(set, [old, late], [])).toEqual([old])
  expect(setFor(set, [old, late], [{ setAs: 'set', learner: 'late' }])).toEqual([old, late])
  expect(setFor(set, [late], [])).toEqual([late])
})

it('who has ended waits for the others and reads so, with a way there; newcomers are not waited for', async () => {
  const exercise = await work.ended(0, 5, outcomeWith({ causes: ['worn-brushes'] }), work.set.id)
  await bench.register.addLearner({ name: 'Late', class: work.id, at: '2026-03-02T10:00:00Z' })
  await me.open(`/practice/people/${work.people[0]!.id}`)
  const waiting = me.html.split('id="waiting"')[1]!.split('</ul>')[0]
  expect(waiting).toContain(`/practice/exercises/${exercise}/debrief`)
  await me.open(`/practice/exercises/${exercise}/debrief`)
  expect(me.words).toContain('1 of 10 ')
  await me.open(home)
  expect(me.words).toContain('1 of 10 have')
})
