/** Ten learners of one class at one server, all at the same set exercise, their moves dealt out in turns. */
import type { AddressInfo } from 'node:net'
import { setTimeout as wait } from 'node:timers/promises'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { chance } from '../../server/simulation/chance.js'
import type { SetExercise } from '../../shared/practice.js'
import type { Bench } from '../api/bench.js'
import { benchWith } from '../api/bench.js'
import type { Player } from '../practice/bench.js'
import { byPlan, careful } from '../practice/bench.js'
import { names } from './class-at-work.js'
import type { Hand } from './learner-at-phone.js'
import { wireTo, working } from './learner-at-phone.js'
import { glancingRulebook } from '../the-rulebook.js'

let bench: Bench
let base: string
let close: () => void
let set: SetExercise
let ofClass: string
const hands: Hand[] = []
const learners: string[] = []

/** Three as the plan would, seven with careful hands and no head, each their own way. */
const players: readonly Player[] = names.map((_, k) => (k < 3 ? byPlan : careful(k, 6)))

beforeAll(async () => {
  const prepared = await glancingRulebook()
  bench = await benchWith({ knowledge: prepared.knowledge })
  const server = bench.app.listen(0, '127.0.0.1')
  // the players reckon in this process too, so a connection may lie idle longer than a server usually waits
  server.keepAliveTimeout = 0
  await new Promise((listening) => server.once('listening', listening))
  base = `http://127.0.0.1:${(server.address() as AddressInfo).port}`
  close = () => {
    server.closeAllConnections()
    server.close()
  }
  const { register } = bench
  const at = '2026-03-02T09:00:00Z'
  ofClass = (await register.addClass({ name: 'First years', at })).id
  const setting = { hideSuspects: false, hidePrices: false }
  set = await register.addSetExercise({
    class: ofClass,
    kind: 'universal-motor',
    level: 'sweeping-the-floor',
    seed: 20260302,
    setting,
    at,
  })
  const wire = wireTo(base)
  const turns = []
  for (const [k, name] of names.entries()) {
    const { id } = await register.addLearner({ name, class: ofClass, at })
    learners.push(id)
    turns.push({ k, work: working(prepared, wire, set, { learner: id, player: players[k]! }) })
  }
  // in each round everybody's next form is on its way at the same moment, in another order each time
  let going = turns
  for (let round = 0; going.length > 0; round++) {
    const order = [...going].sort((a, b) => chance(round, a.k) - chance(round, b.k))
    const done = await Promise.all(
      order.map(async (it) => {
        const { value, done: isOver } = await it.work.next()
        hands[it.k] = value
        return isOver ? it.k : -1
      }),
    )
    going = going.filter(({ k }) => !done.includes(k))
  }
})
afterAll(() => close())

it('everybody’s exercise has ended, each with one of their own', async () => {
  expect(hands.map(({ over }) => over !== undefined)).toEqual(names.map(() => true))
  expect(new Set(hands.map(({ address }) => address)).size).toBe(10)
  const kept = await bench.register.exercises({ class: ofClass })
  expect(kept.map(({ learner }) => learner).sort()).toEqual([...learners].sort())
  expect(kept.every(({ outcome, setAs }) => outcome !== null && setAs === set.id)).toBe(true)
})

it('nobody’s moves are mixed up with another’s', async () => {
  for (const [k, { address, sent }] of hands.entries()) {
    const { moves, learner } = await bench.register.exercise(address.split('/').at(-1)!)
    expect(learner).toBe(learners[k])
    expect(moves).toEqual(sent)
  }
  // those that go their own way did not all go the same one
  expect(new Set(hands.map(({ sent }) => JSON.stringify(sent))).size).toBeGreaterThan(5)
})

it('all had the same tool with the same complaint, and the same trouble', () => {
  const [first] = hands
  for (const { desk } of hands) {
    expect(desk.complaint).toEqual(first!.desk.complaint)
    expect(desk.tool.causes).toEqual(first!.desk.tool.causes)
  }
})

it('every debrief comes; who went as the plan would has lost nothing, the others have', async () => {
  for (;;) {
    const open = (await bench.register.exercises({ class: ofClass })).filter(
      ({ outcome }) => outcome!.score === null,
    )
    if (open.length === 0) break
    await wait(200)
  }
  const scoreOf = new Map(
    (await bench.register.exercises({ class: ofClass })).map(({ learner, outcome }) => [
      learner,
      outcome!.score!,
    ]),
  )
  const scores = learners.map((id) => scoreOf.get(id)!)
  expect(scores.slice(0, 3)).toEqual([scores[0], scores[0], scores[0]])
  expect(scores[0]).toBeCloseTo(100, 6)
  for (const score of scores.slice(3)) expect(score).toBeLessThan(100)
  for (const { address } of hands) {
    const response = await fetch(`${base}${address}/debrief`)
    expect(response.status).toBe(200)
  }
})

it('the instructor has all ten side by side, and what was wrong, now that nobody is at it', async () => {
  const page = await (await fetch(`${base}/practice/classes/${ofClass}`)).text()
  expect(page).toContain('10 of 10 have done it.')
  const { knowledge } = await glancingRulebook()
  const model = hands[0]!.desk.kind.model
  const cause = model.causes[hands[0]!.desk.tool.causes[0]!]!.id
  expect(page).toContain(`What was wrong: ${knowledge.causes.find(({ id }) => id === cause)!.name}.`)
  const csv = await (await fetch(`${base}/practice/classes/${ofClass}/results.csv`)).text()
  expect(csv.trim().split('\r\n')).toHaveLength(11)
})
