/** How a class is joined, and its lessons. */
import type { Kysely } from 'kysely'
import { ClassDoor, Lesson } from '../../shared/practice.js'
import { StaleForm } from '../errors.js'
import type { Register } from '../register/register.js'
import type { Tables } from './register-tables.js'
import { doorFrom, jsonOf, lessonFrom } from './register-tables.js'
import { note } from './written-rows.js'

type Lessons = Pick<
  Register,
  'doorOf' | 'classBehind' | 'hangDoor' | 'latestLesson' | 'startLesson' | 'moveLesson'
>

const Body = Lesson.omit({ id: true, class: true, startedAt: true })

export function lessonsIn(db: Kysely<Tables>, newKey: () => string): Lessons {
  return {
    async doorOf(ofClass) {
      const row = await db
        .selectFrom('class_door')
        .selectAll()
        .where('class_id', '=', ofClass)
        .executeTakeFirst()
      return row ? doorFrom(row) : null
    },

    async classBehind(word) {
      const row = await db.selectFrom('class_door').selectAll().where('word', '=', word).executeTakeFirst()
      return row ? doorFrom(row) : null
    },

    async hangDoor(door) {
      const { class: class_id, word, pin } = ClassDoor.parse(door)
      const { numInsertedOrUpdatedRows } = await db
        .insertInto('class_door')
        .values({ class_id, word, pin })
        .onConflict((there) => there.doNothing())
        .executeTakeFirst()
      return numInsertedOrUpdatedRows === 1n
    },

    async latestLesson(ofClass) {
      const row = await db
        .selectFrom('lesson')
        .selectAll()
        .where('class_id', '=', ofClass)
        .orderBy('started_at', 'desc')
        .orderBy('id')
        .executeTakeFirst()
      return row ? lessonFrom(row) : null
    },

    startLesson: ({ class: ofClass, startedAt, ...body }) =>
      db.transaction().execute(async (within) => {
        const row = { id: newKey(), class_id: ofClass, started_at: startedAt, body: jsonOf(Body, body) }
        await within.insertInto('lesson').values(row).execute()
        await note(within, 'class', [{ id: ofClass, did: partDone(body) }])
        return lessonFrom(row)
      }),

    moveLesson: ({ id, class: ofClass, startedAt, ...body }, from) =>
      db.transaction().execute(async (within) => {
        const { numUpdatedRows } = await within
          .updateTable('lesson')
          .set({ body: jsonOf(Body, body) })
          .where('id', '=', id)
          .where('body', '=', jsonOf(Body, bodyOf(from)))
          .executeTakeFirst()
        if (numUpdatedRows === 0n) throw new StaleForm(ofClass, 'lesson')
        // a phone that joins is no part
        if (body.parts.length !== from.parts.length)
          await note(within, 'class', [{ id: ofClass, did: partDone(body) }])
        return { id, class: ofClass, startedAt, ...body }
      }),
  }
}

/** The part that it went on to. */
const partDone = ({ parts }: Pick<Lesson, 'parts'>) => `lesson ${parts.at(-1)?.id ?? ''}`.trim()

const bodyOf = ({ id: _id, class: _class, startedAt: _at, ...body }: Lesson) => body
