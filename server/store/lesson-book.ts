/** How a class is joined, and its lessons. */
import type { Kysely } from 'kysely'
import { ClassDoor, Lesson } from '../../shared/practice.js'
import { StaleForm } from '../errors.js'
import type { Register } from '../register/register.js'
import type { Tables } from './register-tables.js'
import { doorFrom, jsonOf, lessonFrom } from './register-tables.js'

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

    async startLesson({ class: ofClass, startedAt, ...body }) {
      const row = { id: newKey(), class_id: ofClass, started_at: startedAt, body: jsonOf(Body, body) }
      await db.insertInto('lesson').values(row).execute()
      return lessonFrom(row)
    },

    async moveLesson({ id, class: ofClass, startedAt, ...body }, from) {
      const { numUpdatedRows } = await db
        .updateTable('lesson')
        .set({ body: jsonOf(Body, body) })
        .where('id', '=', id)
        .where('body', '=', jsonOf(Body, bodyOf(from)))
        .executeTakeFirst()
      if (numUpdatedRows === 0n) throw new StaleForm(ofClass, 'lesson')
      return { id, class: ofClass, startedAt, ...body }
    },
  }
}

const bodyOf = ({ id: _id, class: _class, startedAt: _at, ...body }: Lesson) => body
