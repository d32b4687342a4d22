/** Classes and the people in them. */
import type { Kysely } from 'kysely'
import type { Learner } from '../../shared/practice.js'
import { PracticeClass } from '../../shared/practice.js'
import { BadRequest, NotFound } from '../errors.js'
import { nameKey } from '../register/name-key.js'
import type { Register } from '../register/register.js'
import type { Tables } from './register-tables.js'
import { classFrom, learnerFrom } from './register-tables.js'
import { note } from './written-rows.js'

type People = Pick<
  Register,
  'classes' | 'classOf' | 'addClass' | 'removeClass' | 'learners' | 'learner' | 'addLearner' | 'changeLearner'
>

export function peopleIn(db: Kysely<Tables>, newKey: () => string): People {
  async function classOf(id: string): Promise<PracticeClass> {
    const row = await db.selectFrom('practice_class').selectAll().where('id', '=', id).executeTakeFirst()
    if (!row) throw new NotFound(`the class "${id}"`)
    return classFrom(row)
  }
  async function learner(id: string): Promise<Learner> {
    const row = await db.selectFrom('learner').selectAll().where('id', '=', id).executeTakeFirst()
    if (!row) throw new NotFound(`the learner "${id}"`)
    return learnerFrom(row)
  }
  const inClass = (ofClass: string, key: string) =>
    db
      .selectFrom('learner')
      .select('id')
      .where('class_id', '=', ofClass)
      .where('name_key', '=', key)
      .executeTakeFirst()

  return {
    async classes() {
      const rows = await db.selectFrom('practice_class').selectAll().execute()
      return byName(rows.map(classFrom))
    },

    classOf,

    async addClass({ name: typed, at }) {
      const name = nameFrom(typed, 'A class')
      const key = nameKey(name)
      for (;;) {
        const row = { id: newKey(), name, name_key: key, since: at }
        const isNew = await db.transaction().execute(async (within) => {
          const { numInsertedOrUpdatedRows } = await within
            .insertInto('practice_class')
            .values(row)
            .onConflict((taken) => taken.doNothing())
            .executeTakeFirst()
          if (numInsertedOrUpdatedRows !== 1n) return false
          await note(within, 'class', [{ id: row.id, did: 'added' }])
          return true
        })
        if (isNew) return classFrom(row)
        const there = await db
          .selectFrom('practice_class')
          .select('name')
          .where('name_key', '=', key)
          .executeTakeFirst()
        if (there)
          throw taken(`There is a class "${there.name}" already; open that one, or choose another name.`)
      }
    },

    removeClass: (id) =>
      db.transaction().execute(async (within) => {
        try {
          for (const table of ['lesson', 'class_door', 'set_exercise', 'learner'] as const)
            await within.deleteFrom(table).where('class_id', '=', id).execute()
        } catch (error) {
          if (!isNeeded(error)) throw error
          throw new BadRequest(
            'Somebody in this class has practised, so it stays: move them to another class first.',
            { status: 422, field: 'remove' },
          )
        }
        const gone = await within
          .deleteFrom('practice_class')
          .where('id', '=', id)
          .returning('name')
          .executeTakeFirst()
        if (!gone) throw new NotFound(`the class "${id}"`)
        await note(within, 'class', [{ id, did: `removed ${gone.name}` }])
      }),

    async learners(ofClass) {
      const all = db.selectFrom('learner').selectAll()
      const rows = await (ofClass === undefined ? all : all.where('class_id', '=', ofClass)).execute()
      return byName(rows.map(learnerFrom))
    },

    learner,

    async addLearner({ name: typed, class: ofClass, at }) {
      const name = nameFrom(typed, 'A learner')
      const { name: className } = await classOf(ofClass)
      for (;;) {
        const row = { id: newKey(), class_id: ofClass, name, name_key: nameKey(name), since: at }
        const isNew = await db.transaction().execute(async (within) => {
          const { numInsertedOrUpdatedRows } = await within
            .insertInto('learner')
            .values(row)
            .onConflict((taken) => taken.doNothing())
            .executeTakeFirst()
          if (numInsertedOrUpdatedRows !== 1n) return false
          await note(within, 'class', [{ id: ofClass, did: `joined ${row.id}` }])
          return true
        })
        if (isNew) return learnerFrom(row)
        if (await inClass(ofClass, row.name_key)) throw thereAlready(name, className)
      }
    },

    async changeLearner(id, { name: typed, class: ofClass }) {
      const name = nameFrom(typed, 'A learner')
      const { name: className } = await classOf(ofClass)
      try {
        await db.transaction().execute(async (within) => {
          // writing first takes the lock: the class that is left is the one that is read
          await within
            .updateTable('learner')
            .set((is) => ({ name: is.ref('name') }))
            .where('id', '=', id)
            .execute()
          const before = await within
            .selectFrom('learner')
            .select(['name', 'class_id'])
            .where('id', '=', id)
            .executeTakeFirst()
          if (!before || (before.name === name && before.class_id === ofClass)) return
          await within
            .updateTable('learner')
            .set({ name, name_key: nameKey(name), class_id: ofClass })
            .where('id', '=', id)
            .execute()
          const moved = [
            { id: before.class_id, did: `left ${id}` },
            { id: ofClass, did: `joined ${id}` },
          ]
          await note(
            within,
            'class',
            before.class_id === ofClass ? [{ id: ofClass, did: `renamed ${id}` }] : moved,
          )
        })
      } catch (error) {
        if (isTwice(error)) throw thereAlready(name, className)
        throw error
      }
      return learner(id)
    },
  }
}

const thereAlready = (name: string, className: string) =>
  taken(
    `"${className}" has somebody called "${name}" already; add a letter or a second name to tell them apart.`,
  )

const taken = (message: string) => new BadRequest(message, { status: 422, field: 'name' })

/** @throws BadRequest where nobody could read it */
function nameFrom(typed: string, whose: string): string {
  const { success, data } = PracticeClass.shape.name.safeParse(typed)
  if (success && /[\p{L}\p{N}\p{P}\p{S}]/u.test(data)) return data
  throw taken(`${whose} needs a name, of 80 letters at most.`)
}

/** As SQLite says it, and as the standard does (SQLSTATE, ISO/IEC 9075). */
const isTwice = (error: unknown) =>
  error instanceof Error &&
  'code' in error &&
  (error.code === 'SQLITE_CONSTRAINT_UNIQUE' || error.code === '23505')

/** Something else points to what was to go. */
export const isNeeded = (error: unknown): boolean =>
  error instanceof Error &&
  'code' in error &&
  (error.code === 'SQLITE_CONSTRAINT_FOREIGNKEY' || error.code === '23503')

const collator = new Intl.Collator('en', { numeric: true })
const byName = <One extends { id: string; name: string }>(all: One[]): One[] =>
  all.sort((a, b) => collator.compare(a.name, b.name) || (a.id < b.id ? -1 : 1))
