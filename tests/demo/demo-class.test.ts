/** The demo's class: its stored moves still fit the rulebook of today, and there is something to see on every page. */
import { beforeAll, describe, expect, it } from 'vitest'
import { demoClass, demoExercises, latestEvening, putDemoClass } from '../../server/demo/demo-class.js'
import type { Prepared } from '../../server/diagnosis/prepare.js'
import { outcomeOf } from '../../server/practice/outcome.js'
import { debriefOf } from '../../server/practice/debrief.js'
import type { Played } from '../../server/practice/played.js'
import { playOut } from '../../server/practice/played.js'
import type { ExerciseSummary } from '../../shared/practice.js'
import { openRegister } from '../register/open-register.js'
import { preparedRulebook } from '../the-rulebook.js'

const { people, set } = demoClass()
const stored = demoExercises()
const anew = 'run `npm run play:class` and look over what has changed'

let prepared: Prepared
beforeAll(async () => {
  prepared = await preparedRulebook()
})
const played = ({ kind, level, seed, setting, moves }: (typeof stored)[number]): Promise<Played> => {
  const begunAt = '2026-01-05T09:00:00.000Z'
  const who = { id: 'exercise', learner: 'learner' }
  return playOut(prepared, { ...who, kind, level, seed, setting, moves, begunAt, changedAt: begunAt })
}

describe('what was played', () => {
  it('can still be made, move by move, and comes to what is stored', async () => {
    for (const exercise of stored) {
      const it = await played(exercise)
      expect(
        it.done.filter(({ refused }) => refused !== undefined),
        anew,
      ).toEqual([])
      const { score, lostMinutes, parted, ...outcome } = exercise.outcome ?? {}
      const today = outcomeOf(it, null)
      expect(today ?? null, anew).toEqual(exercise.outcome && { ...outcome, score: null, lostMinutes: null })
      expect([typeof score, typeof lostMinutes]).toEqual(
        exercise.outcome ? ['number', 'number'] : ['undefined', 'undefined'],
      )
    }
  })
  it('is worth the stored score', async () => {
    // one by a slip, one that lost much, one that lost nothing
    const slip = stored.find(({ outcome }) => outcome?.over === 'slip')
    const worst = stored
      .filter(({ outcome }) => outcome && outcome.over !== 'slip' && outcome.score !== null)
      .sort((a, b) => a.outcome!.score! - b.outcome!.score!)[0]
    const best = stored.find(({ outcome }) => outcome?.score === 100)
    for (const exercise of [slip!, worst!, best!]) {
      const { score } = await debriefOf(await played(exercise))
      expect(score, anew).toBeCloseTo(exercise.outcome!.score!, 6)
    }
    expect(slip!.outcome!.score).toBe(0)
  })
})

describe('the class', () => {
  it('has ten people, each with something done', () => {
    expect(people).toHaveLength(10)
    expect(new Set(stored.map(({ person }) => person))).toEqual(new Set(people))
  })
  it('shows each way to end, a mistake of every sort, and somebody still at it', () => {
    const ways = new Set(stored.map(({ outcome }) => outcome?.over))
    for (const way of ['hand-back', 'set-aside', 'slip', undefined] as const) expect([...ways]).toContain(way)
    const slips = new Set(stored.flatMap(({ outcome }) => outcome?.slips ?? []))
    expect(slips.size).toBeGreaterThanOrEqual(3)
    expect(stored.some(({ outcome }) => outcome?.over === 'hand-back' && !outcome.mended)).toBe(false)
    expect(new Set(stored.map(({ level }) => level)).size).toBeGreaterThanOrEqual(3)
    const causes = new Set(stored.flatMap(({ outcome }) => outcome?.causes ?? []))
    expect(causes.size).toBeGreaterThanOrEqual(8)
  })
  it('has two set exercises, one that nearly all have done and one open for everybody', () => {
    expect(set).toHaveLength(2)
    const done = stored.filter((it) => it.set === 0)
    expect(done.length).toBeGreaterThanOrEqual(8)
    for (const { kind, level, seed, setting } of done)
      expect(set[0]).toMatchObject({ kind, level, seed, setting })
    expect(stored.filter((it) => it.set === 1)).toEqual([])
  })
})

describe('put into a register', () => {
  it.each(['2026-03-02T09:00:00Z', '2026-03-03T18:31:00Z', '2026-03-04T02:00:00Z', '2026-11-25T23:59:59Z'])(
    'at %s it lies behind',
    async (instant) => {
      const now = new Date(instant)
      const register = await openRegister()
      await putDemoClass(register, now)
      const [only] = await register.classes()
      expect(await register.learners(only!.id)).toHaveLength(10)
      const all = await register.exercises({ class: only!.id })
      expect(all).toHaveLength(stored.length)
      for (const { begunAt, changedAt } of all) {
        expect(begunAt < changedAt).toBe(true)
        expect(changedAt < now.toISOString()).toBe(true)
        expect(new Date(begunAt).getDay()).toBe(2)
      }
      for (const { setAt } of await register.setExercises(only!.id))
        expect(setAt < now.toISOString()).toBe(true)
      expect(overlaps(all)).toEqual([])
      await register.close()
    },
  )
  it('was on a Tuesday evening, the latest that is over', () => {
    for (let hour = 0; hour < 24 * 8; hour++) {
      const now = new Date(2026, 2, 1, hour)
      const evening = latestEvening(now)
      expect([evening.getDay(), evening.getHours(), evening.getMinutes()]).toEqual([2, 18, 30])
      const since = (now.getTime() - evening.getTime()) / 3_600_000
      expect(since).toBeGreaterThanOrEqual(3)
      expect(since).toBeLessThan(7 * 24 + 3)
    }
  })
})

/** Nobody is at two tools at once. */
function overlaps(all: readonly ExerciseSummary[]): string[] {
  return all.flatMap((one) =>
    all
      .filter((other) => other !== one && other.learner === one.learner)
      .filter((other) => other.begunAt <= one.begunAt && one.begunAt < other.changedAt)
      .map((other) => `${one.id} begins in the middle of ${other.id}`),
  )
}
