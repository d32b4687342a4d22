/** The exercises that were set for a class. */
import type { Kysely } from 'kysely'
import { Setting } from '../../shared/practice.js'
import { BadRequest, NotFound } from '../errors.js'
import { isNeeded } from './people.js'
import type { Register } from '../register/register.js'
import type { Tables } from './register-tables.js'
import { jsonOf, setExerciseFrom } from './register-tables.js'
import { note } from './written-rows.js'

type SetExercises = Pick<
  Register,
  'setExercises' | 'setExercise' | 'addSetExercise' | 'closeSetExercise' | 'removeSetExercise'
>

export const noSetExercise = (id: string) => new NotFound(`an exercise "${id}" set for this class`)

export function setExercisesIn(db: Kysely<Tables>, newKey: () => string): SetExercises {
  return {
    async setExercises(ofClass) {
      const rows = await db
        .selectFrom('set_exercise')
        .selectAll()
        .where('class_id', '=', ofClass)
        .orderBy('set_at', 'desc')
        .orderBy('id')
        .execute()
      return rows.map(setExerciseFrom)
    },

    async setExercise(id) {
      const row = await db.selectFrom('set_exercise').selectAll().where('id', '=', id).executeTakeFirst()
      if (!row) throw noSetExercise(id)
      return setExerciseFrom(row)
    },

    async addSetExercise({ class: ofClass, kind, level, seed, setting, at }) {
      const there = await db
        .selectFrom('practice_class')
        .select('id')
        .where('id', '=', ofClass)
        .executeTakeFirst()
      if (!there) throw new NotFound(`the class "${ofClass}"`)
      const row = {
        class_id: ofClass,
        kind,
        level,
        seed,
        setting: jsonOf(Setting, setting),
        set_at: at,
        closed_at: null,
      }
      for (;;) {
        const id = newKey()
        const isNew = await db.transaction().execute(async (within) => {
          const { numInsertedOrUpdatedRows } = await within
            .insertInto('set_exercise')
            .values({ id, ...row })
            .onConflict((taken) => taken.column('id').doNothing())
            .executeTakeFirst()
          if (numInsertedOrUpdatedRows !== 1n) return false
          await note(within, 'class', [{ id: ofClass, did: `set ${id}` }])
          return true
        })
        if (isNew) return setExerciseFrom({ id, ...row })
      }
    },

    removeSetExercise: (id) =>
      db.transaction().execute(async (within) => {
        const inUse = () =>
          new BadRequest(
            'Somebody has begun it, or a lesson has it, so it stays: close it for all instead.',
            {
              status: 422,
              field: 'remove',
            },
          )
        const lesson = await within
          .selectFrom('lesson')
          .select('id')
          .where('body', 'like', `%"${id}"%`)
          .executeTakeFirst()
        if (lesson) throw inUse()
        try {
          const gone = await within
            .deleteFrom('set_exercise')
            .where('id', '=', id)
            .returning('class_id')
            .executeTakeFirst()
          if (!gone) throw noSetExercise(id)
          await note(within, 'class', [{ id: gone.class_id, did: `unset ${id}` }])
        } catch (error) {
          throw isNeeded(error) ? inUse() : error
        }
      }),

    closeSetExercise: (id, at) =>
      db.transaction().execute(async (within) => {
        const { numUpdatedRows } = await within
          .updateTable('set_exercise')
          .set({ closed_at: at })
          .where('id', '=', id)
          .where('closed_at', 'is', null)
          .executeTakeFirst()
        const row = await within
          .selectFrom('set_exercise')
          .selectAll()
          .where('id', '=', id)
          .executeTakeFirst()
        if (!row) throw noSetExercise(id)
        if (numUpdatedRows !== 0n) await note(within, 'class', [{ id: row.class_id, did: `closed ${id}` }])
        return setExerciseFrom(row)
      }),
  }
}
