/**
 * A lesson from its first button to its last with twenty phones: all join by word and number, begin, play each in their
 * own way, and are closed; nobody is told what it was before. What a lesson needs is common practice, no source.
 */
import type { AddressInfo } from 'node:net'
import { afterAll, beforeAll, expect, it } from 'vitest'
import type { Lesson } from '../../shared/practice.js'
import type { Bench } from '../api/bench.js'
import { benchWith } from '../api/bench.js'
import { players } from '../practice/score-table/players.js'
import { glancingRulebook } from '../the-rulebook.js'
import { wireTo, working } from './learner-at-phone.js'

const people = 20
const level = 'sweeping-the-floor'
const kind = 'universal-motor'
/** Nine ways of playing, dealt out in turn; the last phone is never picked up. */
const ways = Object.values(players)

let bench: Bench
let base: string
let close: () => void
let home: string
let ofClass: string
let learners: string[]
/** milliseconds from the first phone to the last one that had its own page */
let joined: number

const page = async (path: string) => (await fetch(`${base}${path}`)).text()
const lesson = (): Promise<Lesson> => bench.register.latestLesson(ofClass).then((it) => it!)
const goOn = async () => {
  const { parts } = await lesson()
  await wireTo(base).post(`${home}/lesson`, { do: 'next', seen: String(parts.length) })
}

beforeAll(async () => {
  bench = await benchWith({ knowledge: (await glancingRulebook()).knowledge })
  const server = bench.app.listen(0, '127.0.0.1')
  server.keepAliveTimeout = 0
  await new Promise((listening) => server.once('listening', listening))
  base = `http://127.0.0.1:${(server.address() as AddressInfo).port}`
  close = () => {
    server.closeAllConnections()
    server.close()
  }
  ofClass = (await bench.register.addClass({ name: 'Evening class', at: '2026-03-02T09:00:00Z' })).id
  home = `/practice/classes/${ofClass}`
  await wireTo(base).post(`${home}/lesson`, { do: 'start', level, kind })
  await page(`${home}/lesson`)
  const { word, pin } = (await bench.register.doorOf(ofClass))!
  const began = performance.now()
  const at = await Promise.all(
    Array.from({ length: people }, async (_, k) => {
      const { to } = await wireTo(base).post('/join', { word: word.toUpperCase(), pin, name: `Phone ${k}` })
      await page(to)
      return to
    }),
  )
  joined = performance.now() - began
  learners = at.map((to) => to.split('/').at(-1)!)
}, 600_000)
afterAll(() => close())

it('all twenty are in the class, each once, and the same name again is the same person', async () => {
  console.log(`twenty joined in ${Math.round(joined)} ms`)
  expect(new Set(learners).size).toBe(people)
  const { word, pin } = (await bench.register.doorOf(ofClass))!
  expect((await wireTo(base).post('/join', { word, pin, name: ' phone 3 ' })).to).toContain(learners[3]!)
  expect((await wireTo(base).post('/join', { word, pin: '0000', name: 'Somebody' })).status).toBe(422)
  expect(await bench.register.learners(ofClass)).toHaveLength(people)
})

it('each part begins with one press; pressed twice it goes on once', async () => {
  const { parts } = await lesson()
  const press = { do: 'next', seen: String(parts.length) }
  await wireTo(base).post(`${home}/lesson`, press)
  await wireTo(base).post(`${home}/lesson`, press)
  expect((await lesson()).parts.map(({ id }) => id)).toEqual(['brief', 'play'])
})

it('play: all but one end, and nobody is told what it was while one is still at it', async () => {
  const prepared = await glancingRulebook()
  const set = await bench.register.setExercise((await lesson()).play!)
  const names = new Set<string>()
  for (const [k, learner] of learners.slice(0, -1).entries()) {
    const work = working(prepared, wireTo(base), set, { learner, player: ways[k % ways.length]! })
    let hand = await work.next()
    while (!hand.done) hand = await work.next()
    const { address, desk } = hand.value
    for (const c of desk.tool.causes) names.add(desk.kind.model.causes[c]!.name)
    if (k < 10) {
      const debrief = await page(`${address}/debrief`)
      const record = await page(`/practice/people/${learner}/record`)
      for (const name of names) {
        expect(debrief).not.toContain(name)
        expect(record).not.toContain(name)
      }
    }
  }
  const wall = await page(`${home}/wall`)
  for (const name of names) expect(wall).not.toContain(name)
  expect(await page(`${home}/lesson`)).toContain(`${people - 1} of ${people} ended`)
}, 600_000)

it('talk: closed for all, it is told; a form that comes late makes no move', async () => {
  const late = learners.at(-1)!
  const { play } = await lesson()
  const { to } = await wireTo(base).post('/practice/exercises', { learner: late, set: play! })
  await goOn()
  expect((await lesson()).parts.at(-1)!.id).toBe('talk')
  await wireTo(base).post(`${to}/moves`, { seen: '0', move: 'disinfected' })
  expect((await bench.register.exercise(to.split('/').at(-1)!)).moves).toEqual([])
  const [set] = await bench.register.setExercises(ofClass)
  expect(set!.closedAt).toBeDefined()
  const wall = await page(`${home}/wall`)
  expect(wall).toContain('Done first')
  expect(wall).not.toContain('Phone 3')
  expect(await page(`${home}/wall?names=yes`)).toContain('Phone 3')
})

it('again, another tool; then it is over', async () => {
  await goOn()
  const { again, play } = await lesson()
  expect(again).toBeDefined()
  expect(again).not.toBe(play)
  await goOn()
  expect((await lesson()).parts.map(({ id }) => id)).toEqual(['brief', 'play', 'talk', 'again', 'over'])
  expect((await bench.register.setExercise(again!)).closedAt).toBeDefined()
})
