/** Somebody with the addresses and the rulebook that they give, and no code of ours. */
import request from 'supertest'
import { beforeAll, describe, expect, it } from 'vitest'
import type { AssessmentView, RulebookView } from '../../shared/api.js'
import type { Bench } from './bench.js'
import { benchWith } from './bench.js'
import type { Told } from './stranger.js'
import { answersTo, drawnAnswer, evidenceOf, scoreByQuickscore } from './stranger.js'
import { knowledge } from '../the-rulebook.js'

const kind = 'universal-motor'
let bench: Bench
let book: RulebookView
beforeAll(async () => {
  bench = await benchWith({ knowledge: knowledge })
  book = (await request(bench.app).get(`/api/rulebook?kind=${kind}`).expect(200)).body as RulebookView
})
async function assessed(told: Told): Promise<AssessmentView> {
  const res = await request(bench.app)
    .post('/api/assess')
    .send({ kind, ...told })
  expect(res.status, res.text).toBe(200)
  return res.body as AssessmentView
}

/** Park and Miller's minimal standard generator (CACM 31, 1988): the same cases in every run. */
function chanceFrom(start: number): () => number {
  let state = start
  return () => (state = (state * 48271) % 2147483647) / 2147483647
}
const oneOf = <T>(list: readonly T[], chance: () => number): T => list[Math.floor(chance() * list.length)]!

it('scores like the published method on the rulebook it gives, fixes tried and all', async () => {
  const chance = chanceFrom(2026)
  // An earlier repair counts as a fix that was tried, which the published method of one sitting does not know.
  const earlier = new Set(knowledge.findings.filter((it) => it.earlier !== undefined).map(({ id }) => id))
  const questions = [
    ...new Set(book.findings.filter(({ id }) => !earlier.has(id)).map(({ question }) => question)),
  ]
  let compared = 0
  for (let k = 0; k < 30; k++) {
    const told: Told = { answers: {}, fixesTried: [], answeredAfter: {} }
    const fixes = k % 3 === 0 ? 0 : 1 + Math.floor(chance() * 4)
    for (let f = 0; f < fixes; f++) told.fixesTried.push(oneOf(book.fixes, chance).id)
    if (k % 6 === 1) told.fixesTried.push(told.fixesTried[0]!)
    for (let a = 0; a < 4 + (k % 12); a++) {
      const id = oneOf(questions, chance)
      const many = evidenceOf(book, told).filter(({ present }) => present).length >= 4
      told.answers[id] =
        chance() < 0.1 ? 'cant-tell' : many ? answersTo(book, id).at(-1)! : oneOf(answersTo(book, id), chance)
      if (chance() < 0.7) told.answeredAfter[id] = Math.floor(chance() * (told.fixesTried.length + 1))
    }
    if (evidenceOf(book, told).filter(({ present }) => present).length > 4) continue
    const expected = scoreByQuickscore(book, told)
    const { causes, exact } = await assessed(told)
    expect(exact).toBe(true)
    for (const { id, probability, sole } of causes) {
      const [there, alone] = expected.get(id)!
      expect(Math.abs(probability - there), `${id} ${JSON.stringify(told)}`).toBeLessThan(1e-7)
      expect(Math.abs(sole - alone), `${id} alone ${JSON.stringify(told)}`).toBeLessThan(1e-7)
    }
    compared++
  }
  expect(compared).toBeGreaterThan(20)
})

describe('following `next` on tools with causes drawn by prior', () => {
  it.each([1, 2, 3, 4, 5, 6, 7, 8, 9, 10])('comes to an end and repeats nothing (tool %i)', async (tool) => {
    const chance = chanceFrom(7919 * tool)
    const there = new Set<string>()
    while (there.size === 0)
      for (const { id, prior, exclusive } of book.causes) if (!exclusive && chance() < prior) there.add(id)
    const told: Told = { answers: {}, fixesTried: [], answeredAfter: {} }
    const seen = new Set<string>()
    for (;;) {
      const { stop, next, barred } = await assessed(told)
      if (['offer', 'send-in', 'retire'].includes(next.step)) {
        expect(next.id).toBeNull()
        return
      }
      const id = next.id!
      if (next.step === 'stop') {
        expect(stop).toMatchObject({ id, grade: 'set-aside' })
        return
      }
      // a look with more lines than fit on one screen may come back with the others
      const what = [id, ...next.questions].join(' ')
      expect(seen).not.toContain(what)
      seen.add(what)
      expect(barred).not.toHaveProperty([id])
      for (const question of next.questions) expect(told.answers).not.toHaveProperty([question])
      const step = book.steps.find((it) => it.id === id)
      if (stop) expect(step?.power ?? false).toBe(false)
      if (step) expect(next.questions.length).toBeGreaterThan(0)
      // A fix with an outcome tells of the causes that were there when it was begun.
      for (const question of next.questions) {
        told.answers[question] = drawnAnswer(book, question, there, chance)
        told.answeredAfter[question] = told.fixesTried.length
      }
      if (step) continue
      const fix = book.fixes.find((it) => it.id === id)!
      for (const cause of [...there]) if (chance() < (fix.cures[cause] ?? 0)) there.delete(cause)
      if (there.size === 0) return
      told.fixesTried.push(id)
    }
  })
})
