import type { Kysely, Migration } from 'kysely'
import { sql } from 'kysely'

/**
 * A lesson: when a set exercise was closed, by which word and number a class is joined, and how far a lesson is. `body`
 * is all that does not have to be looked for.
 */
export const lessons: Migration = {
  async up(db: Kysely<unknown>): Promise<void> {
    await db.schema.alterTable('set_exercise').addColumn('closed_at', 'text').execute()
    await db.schema
      .createTable('class_door')
      .addColumn('class_id', 'text', (column) =>
        column.primaryKey().notNull().references('practice_class.id'),
      )
      .addColumn('word', 'text', (column) => column.notNull().unique())
      .addColumn('pin', 'text', (column) => column.notNull())
      .modifyEnd(sql`strict, without rowid`)
      .execute()
    await db.schema
      .createTable('lesson')
      .addColumn('id', 'text', (column) => column.primaryKey().notNull())
      .addColumn('class_id', 'text', (column) => column.notNull().references('practice_class.id'))
      .addColumn('started_at', 'text', (column) => column.notNull())
      .addColumn('body', 'text', (column) => column.notNull().check(sql`json_type(body) is 'object'`))
      .modifyEnd(sql`strict, without rowid`)
      .execute()
    await db.schema.createIndex('lesson_latest').on('lesson').columns(['class_id', 'started_at']).execute()
  },
}
