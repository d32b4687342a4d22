/** What the register keeps, what it refuses, and in which words, whatever it stands on. */
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { BadRequest, NotFound, StaleForm } from '../../server/errors.js'
import type { Register } from '../../server/register/register.js'
import type { Stores } from '../../server/store/stores.js'
import type { PracticeMove } from '../../shared/practice.js'
import {
  at,
  counting,
  disinfected,
  handedBack,
  looked,
  outcomeWith,
  plain,
  tool,
} from '../register/open-register.js'
import type { Ground, NewGround } from './grounds.js'

export function registerLaws(newGround: NewGround): void {
  let ground: Ground
  let stores: Stores
  let register: Register
  const open = async (newKey = counting()) => {
    stores = await ground.open(newKey)
    ;({ register } = stores)
  }
  beforeEach(async () => {
    ground = await newGround()
    await open()
  })
  afterEach(async () => {
    await stores.close()
    await ground.end()
  })

  const addClass = (name = 'Evening') => register.addClass({ name, at: at(0) })
  async function learnerAtWork() {
    const { id: ofClass } = await addClass()
    const learner = await register.addLearner({ name: 'Ann', class: ofClass, at: at(0) })
    const exercise = await register.begin({ ...tool, learner: learner.id, at: at(1) })
    return { ofClass, learner, exercise }
  }

  describe('an exercise', () => {
    it('keeps its moves in the order in which they came, over a restart', async () => {
      const { exercise } = await learnerAtWork()
      const spread: PracticeMove = { type: 'spread', spread: { points: { 'dull-blade': 70 }, other: 30 } }
      const moves = [disinfected, looked, spread, disinfected, handedBack]
      for (const [count, move] of moves.entries())
        await register.makeMove(exercise.id, move, at(2 + count), count)
      await register.keepOutcome(exercise.id, outcomeWith())
      await stores.close()
      await open(counting(50))
      expect(await register.exercise(exercise.id)).toEqual({ ...exercise, moves, changedAt: at(6) })
      expect(await register.outcome(exercise.id)).toEqual(outcomeWith())
    })
    it('takes no move that is none, and keeps nothing of it', async () => {
      const { exercise } = await learnerAtWork()
      const wrong = { ...looked, colour: 'red' } as unknown as PracticeMove
      await expect(register.makeMove(exercise.id, wrong, at(2), 0)).rejects.toThrow(/colour/)
      const short: PracticeMove = { type: 'spread', spread: { points: { 'dull-blade': 70 }, other: 20 } }
      await expect(register.makeMove(exercise.id, short, at(2), 0)).rejects.toThrow(/100/)
      expect(await register.exercise(exercise.id)).toEqual(exercise)
    })
    it('takes moves that belong together, all or none', async () => {
      const { exercise } = await learnerAtWork()
      await register.makeMove(exercise.id, [disinfected, looked], at(2), 0)
      const wrong = { type: 'sung' } as unknown as PracticeMove
      await expect(register.makeMove(exercise.id, [looked, wrong], at(3), 2)).rejects.toThrow()
      await expect(register.makeMove(exercise.id, [looked, looked], at(3), 1)).rejects.toThrow(StaleForm)
      expect(await register.exercise(exercise.id)).toMatchObject({
        moves: [disinfected, looked],
        changedAt: at(2),
      })
    })
    it('has room for 400 moves, the last of them the end', async () => {
      const { exercise } = await learnerAtWork()
      await ground.raw(
        'insert into exercise_move (exercise_id, place, at, move) values (?, ?, ?, ?)',
        ...Array.from({ length: 399 }, (_, place) => [
          exercise.id,
          place,
          at(2),
          JSON.stringify(disinfected),
        ]),
      )
      await expect(register.makeMove(exercise.id, looked, at(3), 399)).rejects.toMatchObject({
        name: 'BadRequest',
        status: 422,
        message: expect.stringMatching(/400 moves.*hand back, send in or set aside/) as string,
      })
      await expect(register.makeMove(exercise.id, [looked, handedBack], at(3), 399)).rejects.toThrow()
      expect((await register.exercise(exercise.id)).changedAt).toBe(at(1))
      expect((await register.makeMove(exercise.id, handedBack, at(3), 399)).moves).toHaveLength(400)
    })
    it('says which move cannot be read back, rather than leave it out', async () => {
      const { exercise } = await learnerAtWork()
      await register.makeMove(exercise.id, looked, at(2), 0)
      await ground.raw(`update exercise_move set move = '{"type":"sung"}'`)
      await expect(register.exercise(exercise.id)).rejects.toThrow(`Move 0 of exercise ${exercise.id}`)
    })
    it('that was set is done once, however often the button is pressed', async () => {
      const { ofClass, learner } = await learnerAtWork()
      const set = await register.addSetExercise({ ...tool, class: ofClass, at: at(2) })
      const begin = () => register.begin({ ...tool, learner: learner.id, setAs: set.id, at: at(3) })
      const begun = await Promise.all([begin(), begin(), begin()])
      expect(new Set(begun.map(({ id }) => id)).size).toBe(1)
      const own = await Promise.all(
        [1, 2].map(() => register.begin({ ...tool, learner: learner.id, at: at(4) })),
      )
      expect(new Set(own.map(({ id }) => id)).size).toBe(2)
    })
    it('that was set for another class is not for this one', async () => {
      const { learner } = await learnerAtWork()
      const other = await addClass('Morning')
      const set = await register.addSetExercise({ ...tool, class: other.id, at: at(2) })
      const begun = register.begin({ ...tool, learner: learner.id, setAs: set.id, at: at(3) })
      await expect(begun).rejects.toThrow(NotFound)
      expect(await register.exercises({ learner: learner.id })).toHaveLength(1)
    })
  })

  describe('a form filled in on an old page', () => {
    it('is refused in words about an exercise, and changes nothing', async () => {
      const { exercise } = await learnerAtWork()
      await register.makeMove(exercise.id, looked, at(2), 0)
      const late = register.makeMove(exercise.id, handedBack, at(3), 0)
      await expect(late).rejects.toThrow(StaleForm)
      await expect(late).rejects.toThrow(/This exercise has moved on.*nothing was changed/)
      expect(await register.exercise(exercise.id)).toMatchObject({ moves: [looked], changedAt: at(2) })
    })
    it('wins once only when it is sent twice at the same moment', async () => {
      const { exercise } = await learnerAtWork()
      const sent = await Promise.allSettled(
        [2, 3, 4].map((k) => register.makeMove(exercise.id, looked, at(k), 0)),
      )
      expect(sent.map(({ status }) => status).sort()).toEqual(['fulfilled', 'rejected', 'rejected'])
      expect((await register.exercise(exercise.id)).moves).toHaveLength(1)
    })
  })

  describe('what an exercise came to', () => {
    it('is kept with its score once that is known, and then stands', async () => {
      const { exercise } = await learnerAtWork()
      expect(await register.outcome(exercise.id)).toBeNull()
      await register.keepOutcome(exercise.id, outcomeWith())
      await register.keepOutcome(exercise.id, outcomeWith({ score: 83, lostMinutes: 4 }))
      // somebody who came later and had not worked it out, or had another rulebook
      await register.keepOutcome(exercise.id, outcomeWith())
      await register.keepOutcome(exercise.id, outcomeWith({ score: 20, causes: ['worn-brushes'] }))
      const kept = outcomeWith({ score: 83, lostMinutes: 4 })
      expect(await register.outcome(exercise.id)).toEqual(kept)
      expect(await register.exercises({ learner: exercise.learner })).toEqual([
        expect.objectContaining({ id: exercise.id, changedAt: at(1), outcome: kept }),
      ])
    })
    it('may be a score of nought, which stands as well', async () => {
      const { exercise } = await learnerAtWork()
      await register.keepOutcome(exercise.id, outcomeWith({ over: 'slip', score: 0, lostMinutes: 0 }))
      await register.keepOutcome(exercise.id, outcomeWith())
      expect((await register.outcome(exercise.id))?.score).toBe(0)
    })
  })

  describe('a name', () => {
    it.each([
      "Robert'); DROP TABLE learner;--",
      '<script>alert(1)</script>',
      'Chị \u0000 2 💈',
      '"\\',
      '%_',
      'שָׁלוֹם',
      '=1+1',
      '李',
    ])('%j is kept as it is', async (name) => {
      const { id } = await addClass(name)
      const learner = await register.addLearner({ name, class: id, at: at(0) })
      expect((await register.classOf(id)).name).toBe(name)
      expect((await register.learner(learner.id)).name).toBe(name)
      await expect(register.addLearner({ name, class: id, at: at(0) })).rejects.toThrow(BadRequest)
    })
    // Unicode Character Database, CaseFolding.txt: 00DF; F; 0073 0073. Annex 15 (normalization): é is one with e and 0301.
    it.each([
      ['Groß', 'GROSS'],
      ['José', 'JOSE\u0301'],
      ['Ann', ' ann '],
      ['Bo Li', 'Bo \u00a0 Li'],
    ])('%j is the same person’s as %j', async (one, other) => {
      const { id } = await addClass()
      await register.addLearner({ name: one, class: id, at: at(0) })
      const again = register.addLearner({ name: other, class: id, at: at(0) })
      await expect(again).rejects.toMatchObject({ name: 'BadRequest', status: 422, field: 'name' })
      await expect(again).rejects.toThrow(/"Evening" has somebody called/)
      const { id: elsewhere } = await addClass('Morning')
      expect(await register.addLearner({ name: other, class: elsewhere, at: at(0) })).toBeDefined()
    })
    it('that differs in an accent is another’s', async () => {
      const { id } = await addClass()
      for (const name of ['Ines', 'Inés', 'Ine']) await register.addLearner({ name, class: id, at: at(0) })
      expect(await register.learners(id)).toHaveLength(3)
    })
    it.each(['', '   ', '\u200b', '\u2060\u200d', 'x'.repeat(81)])('%j is none', async (name) => {
      await expect(addClass(name)).rejects.toMatchObject({ name: 'BadRequest', status: 422, field: 'name' })
      const { id } = await addClass()
      await expect(register.addLearner({ name, class: id, at: at(0) })).rejects.toThrow(/needs a name/)
      expect(await register.learners()).toEqual([])
    })
    it('of a learner can be fixed, in capitals too, but not into somebody else’s', async () => {
      const { learner, ofClass } = await learnerAtWork()
      await register.addLearner({ name: 'Bo', class: ofClass, at: at(0) })
      expect(await register.changeLearner(learner.id, { name: 'ANN', class: ofClass })).toMatchObject({
        name: 'ANN',
      })
      await expect(register.changeLearner(learner.id, { name: 'bo', class: ofClass })).rejects.toMatchObject({
        status: 422,
      })
      expect((await register.learner(learner.id)).name).toBe('ANN')
    })
  })

  it('takes another id when one is taken', async () => {
    const ids = ['same', 'same', 'same', 'other', 'other', 'third', 'third', 'fourth', 'fourth', 'fifth']
    await stores.close()
    await open(() => ids.shift() ?? 'spare')
    const own = register
    const one = await own.addClass({ name: 'One', at: at(0) })
    const two = await own.addClass({ name: 'Two', at: at(0) })
    expect([one.id, two.id]).toEqual(['same', 'other'])
    const ann = await own.addLearner({ name: 'Ann', class: one.id, at: at(0) })
    const bo = await own.addLearner({ name: 'Bo', class: one.id, at: at(0) })
    expect([ann.id, bo.id]).toEqual(['other', 'third'])
    const first = await own.begin({ ...tool, learner: ann.id, at: at(1) })
    const second = await own.begin({ ...tool, learner: ann.id, at: at(1) })
    expect([first.id, second.id]).toEqual(['third', 'fourth'])
  })

  it('takes the record along when a learner changes class', async () => {
    const { learner, ofClass, exercise } = await learnerAtWork()
    const { id: other } = await addClass('Morning')
    await register.signOff({ learner: learner.id, skill: 'found', by: 'Ngozi', at: at(3) })
    await register.changeLearner(learner.id, { name: 'Ann', class: other })
    expect(await register.exercises({ class: ofClass })).toEqual([])
    expect((await register.exercises({ class: other })).map(({ id }) => id)).toEqual([exercise.id])
    expect(await register.signedOff(learner.id)).toHaveLength(1)
  })

  it('takes back a class and a set exercise that were a mistake, and nothing that somebody has worked on', async () => {
    const { ofClass, learner } = await learnerAtWork()
    const { id: mistaken } = await addClass('Evenning')
    await register.addLearner({ name: 'Bo', class: mistaken, at: at(0) })
    await register.hangDoor({ class: mistaken, word: 'comb', pin: '1234' })
    await register.addSetExercise({ ...tool, class: mistaken, at: at(1) })
    await register.removeClass(mistaken)
    expect((await register.classes()).map(({ id }) => id)).toEqual([ofClass])
    expect(await register.classBehind('comb')).toBeNull()
    await expect(register.removeClass(ofClass)).rejects.toThrow(/practised/)
    expect(await register.learners(ofClass)).toEqual([learner])
    const [unused, begun, taught] = await Promise.all(
      [1, 2, 3].map((minute) => register.addSetExercise({ ...tool, class: ofClass, at: at(minute) })),
    )
    await register.begin({ ...tool, learner: learner.id, setAs: begun!.id, at: at(4) })
    const { level, kind } = tool
    await register.startLesson({
      class: ofClass,
      startedAt: at(5),
      level,
      kind,
      parts: [{ id: 'play', at: at(5) }],
      play: taught!.id,
    })
    await register.removeSetExercise(unused!.id)
    await expect(register.removeSetExercise(begun!.id)).rejects.toThrow(/begun/)
    await expect(register.removeSetExercise(taught!.id)).rejects.toThrow(/lesson/)
    expect((await register.setExercises(ofClass)).map(({ id }) => id).sort()).toEqual(
      [begun!.id, taught!.id].sort(),
    )
  })

  it('knows what is not there, by what it was', async () => {
    const { ofClass, learner } = await learnerAtWork()
    const id = "' OR 1=1 --"
    for (const [asked, what] of [
      [() => register.classOf(id), /class/],
      [() => register.learner(id), /learner/],
      [() => register.exercise(id), /exercise/],
      [() => register.outcome(id), /exercise/],
      [() => register.keepOutcome(id, outcomeWith()), /exercise/],
      [() => register.makeMove(id, looked, at(1), 0), /exercise/],
      [() => register.setExercise(id), /set for this class/],
      [() => register.removeSetExercise(id), /set for this class/],
      [() => register.removeClass(id), /class/],
      [() => register.addLearner({ name: 'Bo', class: id, at: at(0) }), /class/],
      [() => register.changeLearner(id, { name: 'Bo', class: ofClass }), /learner/],
      [() => register.changeLearner(learner.id, { name: 'Bo', class: id }), /class/],
      [() => register.addSetExercise({ ...tool, class: id, at: at(0) }), /class/],
      [() => register.begin({ ...tool, learner: id, at: at(0) }), /learner/],
      [() => register.signOff({ learner: id, skill: 'found', by: 'Ngozi', at: at(0) }), /learner/],
    ] as const) {
      const answer = asked()
      await expect(answer).rejects.toThrow(NotFound)
      await expect(answer).rejects.toThrow(what)
    }
    expect(await register.learners(id)).toEqual([])
    expect(await register.setExercises(id)).toEqual([])
    await register.strikeSignature(id, 'found')
  })

  it('keeps the greatest seed, and what an instructor set, as they were', async () => {
    const { ofClass } = await learnerAtWork()
    const setting = {
      ...plain,
      causes: ['dull-blade'],
      complaint: 'It "pulls", \n he says',
      hideSuspects: true,
    }
    const set = await register.addSetExercise({
      ...tool,
      class: ofClass,
      seed: 2 ** 32 - 1,
      setting,
      at: at(2),
    })
    expect(await register.setExercise(set.id)).toEqual({
      id: set.id,
      class: ofClass,
      ...tool,
      seed: 4294967295,
      setting,
      setAt: at(2),
    })
  })

  it('keeps what an exercise came to with the move that ended it, or neither', async () => {
    const { id: ofClass } = await register.addClass({ name: 'Evening', at: at(0) })
    const { id: learner } = await register.addLearner({ name: 'Ann', class: ofClass, at: at(0) })
    const { id } = await register.begin({ ...tool, learner, at: at(1) })
    const broken = { ...outcomeWith(), score: 'high' } as never
    await expect(register.makeMove(id, handedBack, at(2), 0, broken)).rejects.toThrow()
    expect((await register.exercise(id)).moves).toEqual([])
    await register.makeMove(id, handedBack, at(2), 0, outcomeWith())
    expect(await register.outcome(id)).toEqual(outcomeWith())
    expect(await register.unscored()).toEqual([id])
    await register.keepOutcome(id, outcomeWith({ score: 80, lostMinutes: 1 }))
    expect(await register.unscored()).toEqual([])
  })
}
