/** Exercises, with their moves and what they came to. */
import type { Kysely } from 'kysely'
import type { Exercise } from '../../shared/practice.js'
import { ExerciseOutcome, PracticeMove, Setting } from '../../shared/practice.js'
import { BadRequest, NotFound, StaleForm } from '../errors.js'
import type { Register } from '../register/register.js'
import { noSetExercise } from './set-book.js'
import type { Tables } from './register-tables.js'
import { headFrom, jsonOf, moveFrom, outcomeFrom } from './register-tables.js'

type Exercises = Pick<
  Register,
  'exercises' | 'exercise' | 'begin' | 'makeMove' | 'unscored' | 'outcome' | 'keepOutcome'
>

/** As many as an exercise takes. */
const mostMoves = 400

export function exercisesIn(db: Kysely<Tables>, newKey: () => string): Exercises {
  async function read(id: string, from: Kysely<Tables> = db): Promise<Exercise> {
    const row = await from.selectFrom('exercise').selectAll().where('id', '=', id).executeTakeFirst()
    if (!row) throw noExercise(id)
    const moves = await from
      .selectFrom('exercise_move')
      .select(['exercise_id', 'place', 'move'])
      .where('exercise_id', '=', id)
      .orderBy('place')
      .execute()
    return { ...headFrom(row), moves: moves.map(moveFrom) }
  }
  async function outcome(id: string): Promise<ExerciseOutcome | null> {
    const row = await db
      .selectFrom('exercise')
      .leftJoin('exercise_outcome', 'exercise_id', 'id')
      .select('outcome')
      .where('id', '=', id)
      .executeTakeFirst()
    if (!row) throw noExercise(id)
    return row.outcome === null ? null : outcomeFrom(id, row.outcome)
  }

  async function keep(id: string, kept: ExerciseOutcome, into: Kysely<Tables> = db): Promise<void> {
    const row = { exercise_id: id, outcome: jsonOf(ExerciseOutcome, kept), score: kept.score }
    await into
      .insertInto('exercise_outcome')
      .values(row)
      .onConflict((there) =>
        there
          .column('exercise_id')
          .doUpdateSet({ outcome: row.outcome, score: row.score })
          .where('exercise_outcome.score', 'is', null),
      )
      .execute()
  }

  return {
    async exercises(of) {
      const rows = await db
        .selectFrom('exercise')
        .innerJoin('learner', 'learner.id', 'learner_id')
        .leftJoin('exercise_outcome', 'exercise_id', 'exercise.id')
        .selectAll('exercise')
        .select('outcome')
        .select((is) =>
          is
            .selectFrom('exercise_move')
            .select((its) => its.fn.countAll<number>().as('count'))
            .whereRef('exercise_move.exercise_id', '=', 'exercise.id')
            .as('move_count'),
        )
        .$if('learner' in of, (all) => all.where('learner_id', '=', 'learner' in of ? of.learner : ''))
        .$if('class' in of, (all) => all.where('learner.class_id', '=', 'class' in of ? of.class : ''))
        .orderBy('changed_at', 'desc')
        .orderBy('exercise.id')
        .execute()
      return rows.map(({ move_count: moveCount, outcome, ...row }) => ({
        ...headFrom(row),
        moveCount: moveCount ?? 0,
        outcome: outcome === null ? null : outcomeFrom(row.id, outcome),
      }))
    },

    exercise: (id) => read(id),

    async begin({ learner, kind, level, seed, setting, setAs, at }) {
      const who = await db
        .selectFrom('learner')
        .select('class_id')
        .where('id', '=', learner)
        .executeTakeFirst()
      if (!who) throw new NotFound(`the learner "${learner}"`)
      if (setAs !== undefined) {
        const set = await db
          .selectFrom('set_exercise')
          .select('class_id')
          .where('id', '=', setAs)
          .executeTakeFirst()
        if (set?.class_id !== who.class_id) throw noSetExercise(setAs)
      }
      const row = {
        learner_id: learner,
        kind,
        level,
        seed,
        setting: jsonOf(Setting, setting),
        set_id: setAs ?? null,
        begun_at: at,
        changed_at: at,
      }
      for (;;) {
        const id = newKey()
        const { numInsertedOrUpdatedRows } = await db
          .insertInto('exercise')
          .values({ id, ...row })
          .onConflict((there) => there.doNothing())
          .executeTakeFirst()
        if (numInsertedOrUpdatedRows === 1n) return read(id)
        const begun = await db
          .selectFrom('exercise')
          .select('id')
          .where('learner_id', '=', learner)
          .where('set_id', '=', row.set_id)
          .executeTakeFirst()
        if (begun) return read(begun.id)
      }
    },

    makeMove: (id, move, at, expectedCount, outcome = null) =>
      db.transaction().execute(async (within) => {
        // Writing first takes the write lock at once, so that no other process can slip in between.
        const { numUpdatedRows } = await within
          .updateTable('exercise')
          .set({ changed_at: at })
          .where('id', '=', id)
          .executeTakeFirst()
        if (numUpdatedRows !== 1n) throw noExercise(id)
        const { count } = await within
          .selectFrom('exercise_move')
          .select((is) => is.fn.countAll<number>().as('count'))
          .where('exercise_id', '=', id)
          .executeTakeFirstOrThrow()
        if (expectedCount !== count) throw new StaleForm(id, 'exercise')
        const moves = [move].flat()
        // the last place is for the end, so that nobody is stuck
        if (count + moves.length >= mostMoves && moves.at(-1)?.type !== 'ended')
          throw new BadRequest(
            `An exercise takes ${mostMoves} moves at most; end this one: hand back, send in or set aside.`,
            { status: 422 },
          )
        const rows = moves.map((it, k) => ({
          exercise_id: id,
          place: count + k,
          at,
          move: jsonOf(PracticeMove, it),
        }))
        if (rows.length > 0) await within.insertInto('exercise_move').values(rows).execute()
        if (outcome) await keep(id, outcome, within)
        return read(id, within)
      }),

    outcome,

    async unscored() {
      const rows = await db
        .selectFrom('exercise_outcome')
        .select('exercise_id')
        .where('score', 'is', null)
        .execute()
      return rows.map(({ exercise_id: id }) => id)
    },

    async keepOutcome(id, kept) {
      await outcome(id)
      await keep(id, kept)
    },
  }
}

const noExercise = (id: string) => new NotFound(`the exercise "${id}"`)
