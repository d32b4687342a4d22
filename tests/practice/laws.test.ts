/** What must hold of any exercise: nothing depends on luck, answers keep to themselves, and a replay is a replay. */
import { bookOf } from '../../shared/book-of-kind.js'
import fc from 'fast-check'
import { beforeAll, describe, expect, it } from 'vitest'
import type { Prepared } from '../../server/diagnosis/prepare.js'
import type { Desk, BenchState } from '../../server/practice/desk.js'
import { layOut, startOf } from '../../server/practice/desk.js'
import { kindFor } from '../../server/practice/drawn.js'
import { makeMove } from '../../server/practice/moves.js'
import { playOut } from '../../server/practice/played.js'
import { moveKey, scoreFrom } from '../../server/practice/score.js'
import { worthOf } from '../../server/practice/worth.js'
import type { PracticeMove } from '../../shared/practice.js'
import { careful, exerciseOf, playedBy } from './bench.js'
import { knowledge, glancingRulebook } from '../the-rulebook.js'

let prepared: Prepared
beforeAll(async () => {
  prepared = await glancingRulebook()
})

const [first] = knowledge.levels
const level = first!.id
const [kind] = first!.kinds as string[]

async function afterMoves(desk: Desk, moves: readonly PracticeMove[]): Promise<BenchState> {
  let now = startOf(desk)
  for (const move of moves) now = (await makeMove(desk, now, move)).after
  return now
}

describe('luck', () => {
  it('the same move in the same situation costs the same, whatever was drawn', async () => {
    // tools with the same complaint and different faults behind it
    const byComplaint = new Map<string, Map<string, Desk>>()
    const tellingOnce = knowledge.levels.find(({ told }) => told === 1)!.id
    for (let seed = 1; seed <= 80; seed++) {
      const desk = await layOut(prepared, exerciseOf({ kind: kind!, level: tellingOnce, seed }))
      const told = [...desk.complaint].sort().join()
      const desks = byComplaint.get(told) ?? new Map<string, Desk>()
      byComplaint.set(told, desks)
      desks.set(desk.tool.causes.join(), desk)
    }
    const [, desks] = [...byComplaint].sort((a, b) => b[1].size - a[1].size)[0]!
    const two = [...desks.values()].slice(0, 2)
    expect(two).toHaveLength(2)
    const { model } = two[0]!.kind
    const setup = model.steps.find(({ form }) => form === 'danger')!.setups[0]!
    const asks = model.steps.filter(({ form }) => form === 'ask').slice(0, 2)
    const moves: PracticeMove[] = [
      ...asks.map((step): PracticeMove => ({ type: 'looked', step: step.id })),
      { type: 'looked', step: asks[0]!.id, question: asks[0]!.questions[0]!.id },
      { type: 'tried', fix: model.fixes.find(({ skill }) => skill === 'S1')!.id },
      { type: 'stood', setup: model.setups.at(-1)!.id },
      { type: 'ended', way: 'send-in' },
      { type: 'ended', way: 'set-aside' },
      { type: 'ended', way: 'hand-back' },
    ]
    for (const move of moves) {
      const losses: number[] = []
      for (const desk of two) {
        const standing = await afterMoves(desk, [{ type: 'stood', setup }])
        losses.push((await worthOf(desk, standing, move)).loss)
      }
      expect(losses[0]!, moveKey(move)).toBeGreaterThanOrEqual(0)
      for (const loss of losses) expect(loss, moveKey(move)).toBeCloseTo(losses[0]!, 9)
    }
  })

  it('asking a thing twice, or what was told already, is paid for and told the same', async () => {
    const desk = await layOut(prepared, exerciseOf({ kind: kind!, level, seed: 5 }))
    const { model } = desk.kind
    const step = model.steps.find(({ form }) => form === 'ask')!
    const once = await makeMove(desk, startOf(desk), { type: 'looked', step: step.id })
    const twice = await makeMove(desk, once.after, { type: 'looked', step: step.id })
    expect(twice.told).toEqual(once.told)
    const { loss } = await worthOf(desk, once.after, { type: 'looked', step: step.id })
    expect(loss).toBeCloseTo(step.minutes * desk.shop.rate, 9)
  })

  it('a score is 100 without losses, falls with each loss, and is never below 0', () => {
    const money = fc.double({ min: 0.01, max: 1000, noNaN: true })
    fc.assert(
      fc.property(money, money, money, (plan, loss, more) => {
        expect(scoreFrom(plan, 0)).toBe(100)
        expect(scoreFrom(plan, loss + more)).toBeLessThan(scoreFrom(plan, loss))
        expect(scoreFrom(plan, loss)).toBeGreaterThan(0)
        // a loss as large as sending in at once: 100 / 2.5
        expect(scoreFrom(plan, plan)).toBeCloseTo(40, 9)
      }),
    )
  })
})

describe('any exercise', () => {
  const anyExercise = fc.record({
    seed: fc.integer({ min: 0, max: 4_294_967_295 }),
    level: fc.constantFrom(...knowledge.levels.map(({ id }) => id)),
    blind: fc.integer({ min: 0, max: 1_000_000 }),
  })

  it('plays the same again; its answers agree with each other; no loss is below 0; what was cured stays gone', async () => {
    await fc.assert(
      fc.asyncProperty(anyExercise, async ({ seed, level: id, blind }) => {
        const at = knowledge.levels.find((it) => it.id === id)!
        const kinds = at.kinds === 'all' ? knowledge.kinds.map((it) => it.id) : at.kinds
        const exercise = exerciseOf({ kind: kinds[seed % kinds.length]!, level: id, seed })
        const { moves } = (await playedBy(prepared, exercise, careful(blind, 5))).exercise
        const [one, two] = [
          await playOut(prepared, { ...exercise, moves }),
          await playOut(prepared, { ...exercise, moves }),
        ]
        expect(two.now).toEqual(one.now)
        const given = new Map<string, unknown>()
        for (const { told, before, after, move, refused } of one.done) {
          expect(refused).toBeUndefined()
          expect(after.minutes).toBeGreaterThanOrEqual(before.minutes)
          expect(before.causes).toEqual(expect.arrayContaining([...after.causes]))
          if (move.type === 'tried' && after.causes.length < before.causes.length) given.clear()
          for (const { question, answer } of told) {
            if (given.has(question)) expect(answer).toEqual(given.get(question))
            given.set(question, answer)
          }
        }
        const last = one.done.at(-2)
        if (last && last.before.over === undefined)
          expect((await worthOf(one.desk, last.before, last.move)).loss).toBeGreaterThanOrEqual(0)
      }),
      { numRuns: 4 },
    )
  })

  it('levels keep their word: how many faults, and of which causes', async () => {
    for (const it of knowledge.levels)
      for (let seed = 1; seed <= 8; seed++) {
        const kinds = it.kinds === 'all' ? knowledge.kinds.map(({ id }) => id) : it.kinds
        const desk = await layOut(
          prepared,
          exerciseOf({ kind: kinds[seed % kinds.length]!, level: it.id, seed }),
        )
        const { causes } = desk.tool
        if (it.faults === 'one') expect(causes).toHaveLength(1)
        if (it.faults === 'chain') {
          const ids = causes.map((c) => desk.kind.model.causes[c]!.id)
          const led = bookOf(knowledge, desk.kind.model.kind.id).chains.filter(
            ({ first, then }) => ids.includes(first) && ids.includes(then),
          )
          expect(led, ids.join(' and ')).toHaveLength(1)
          expect(ids).toHaveLength(2)
        }
        if (it.causes !== 'all') expect(desk.kind.model.causes).toHaveLength(it.causes)
        expect(desk.complaint.length).toBeGreaterThan(0)
        expect(desk.complaint.length).toBeLessThanOrEqual(it.told)
      }
  })

  it('a chain is drawn about the cause that is to be practised, at either end, and without one two faults come by chance', async () => {
    const { chains } = knowledge
    const level = knowledge.levels.find(({ faults }) => faults === 'chain')!
    const kind = 'universal-motor'
    const own = chains.filter(({ kinds }) => kinds.includes(kind))
    const alone = bookOf(knowledge, kind).causes.find(
      ({ id, exclusive }) => !exclusive && own.every(({ first, then }) => first !== id && then !== id),
    )!
    for (const about of [own[0]!.first, own.at(-1)!.then, alone.id]) {
      const setting = { about, hideSuspects: false, hidePrices: false }
      const { tool, kind: of } = await layOut(
        prepared,
        exerciseOf({ kind, level: level.id, seed: 5, setting }),
      )
      const ids = tool.causes.map((c) => of.model.causes[c]!.id)
      expect(ids).toContain(about)
      expect(new Set(ids).size).toBe(2)
    }
  })

  it('kinds come as usual as they are: of 2000 draws each within three standard deviations', () => {
    const book = knowledge
    const all = book.levels.find(({ kinds }) => kinds === 'all')!
    const whole = book.kinds.reduce((sum, it) => sum + it.usual!, 0)
    const times = new Map<string, number>()
    for (let seed = 1; seed <= 2000; seed++) {
      const id = kindFor(book, all, seed)
      times.set(id, (times.get(id) ?? 0) + 1)
    }
    for (const { id, usual } of book.kinds) {
      const share = usual! / whole
      const off = Math.abs((times.get(id) ?? 0) - 2000 * share)
      expect(off, id).toBeLessThan(3 * Math.sqrt(2000 * share * (1 - share)))
    }
    expect(kindFor(book, first!, 7)).toBe(kind)
  })

  it('an instructor’s causes are there, the same for everybody with the seed', async () => {
    const [a, b] = prepared.knowledge.causes
      .filter(({ shares, exclusive }) => shares[kind!] && !exclusive)
      .slice(30)
    const setting = {
      causes: [a!.id, b!.id],
      hideSuspects: true,
      hidePrices: true,
      complaint: 'It is poorly',
    }
    const desks = await Promise.all(
      ['learner-1', 'learner-2'].map((learner) =>
        layOut(prepared, exerciseOf({ kind: kind!, level, seed: 9, learner, setting })),
      ),
    )
    for (const desk of desks) {
      expect(desk.tool.causes.map((c) => desk.kind.model.causes[c]!.id).sort()).toEqual([a!.id, b!.id].sort())
      expect(desk.complaint).toEqual(desks[0]!.complaint)
    }
  })
})
