import type { ColumnDefinitionBuilder, Kysely, Migration } from 'kysely'
import { sql } from 'kysely'

/**
 * Practice: classes, learners, their exercises with a row for each move, what they came to, what was set for a class,
 * and what was signed off. A `…_key` is a name as it is compared (`server/register/name-key.ts`).
 */
export const practice: Migration = {
  async up(db: Kysely<unknown>): Promise<void> {
    await db.schema
      .createTable('practice_class')
      .addColumn('id', 'text', (column) => column.primaryKey().notNull())
      .addColumn('name', 'text', filled('name'))
      .addColumn('name_key', 'text', (column) => column.notNull().unique())
      .addColumn('since', 'text', (column) => column.notNull())
      .modifyEnd(sql`strict, without rowid`)
      .execute()
    await db.schema
      .createTable('learner')
      .addColumn('id', 'text', (column) => column.primaryKey().notNull())
      .addColumn('class_id', 'text', (column) => column.notNull().references('practice_class.id'))
      .addColumn('name', 'text', filled('name'))
      .addColumn('name_key', 'text', (column) => column.notNull())
      .addColumn('since', 'text', (column) => column.notNull())
      .addUniqueConstraint('learner_name', ['class_id', 'name_key'])
      .modifyEnd(sql`strict, without rowid`)
      .execute()
    await db.schema
      .createTable('set_exercise')
      .addColumn('id', 'text', (column) => column.primaryKey().notNull())
      .addColumn('class_id', 'text', (column) => column.notNull().references('practice_class.id'))
      .addColumn('kind', 'text', (column) => column.notNull())
      .addColumn('level', 'text', (column) => column.notNull())
      .addColumn('seed', 'integer', seed)
      .addColumn('setting', 'text', object('setting'))
      .addColumn('set_at', 'text', (column) => column.notNull())
      .modifyEnd(sql`strict, without rowid`)
      .execute()
    await db.schema
      .createTable('exercise')
      .addColumn('id', 'text', (column) => column.primaryKey().notNull())
      .addColumn('learner_id', 'text', (column) => column.notNull().references('learner.id'))
      .addColumn('kind', 'text', (column) => column.notNull())
      .addColumn('level', 'text', (column) => column.notNull())
      .addColumn('seed', 'integer', seed)
      .addColumn('setting', 'text', object('setting'))
      .addColumn('set_id', 'text', (column) => column.references('set_exercise.id'))
      .addColumn('begun_at', 'text', (column) => column.notNull())
      .addColumn('changed_at', 'text', (column) => column.notNull())
      // the same tool twice would be known the second time; free exercises have null here, which is never the same
      .addUniqueConstraint('exercise_set_once', ['learner_id', 'set_id'])
      .modifyEnd(sql`strict, without rowid`)
      .execute()
    await db.schema
      .createTable('exercise_move')
      .addColumn('exercise_id', 'text', (column) => column.notNull().references('exercise.id'))
      .addColumn('place', 'integer', (column) => column.notNull().check(sql`place between 0 and 399`))
      .addColumn('at', 'text', (column) => column.notNull())
      .addColumn('move', 'text', object('move'))
      .addPrimaryKeyConstraint('exercise_move_key', ['exercise_id', 'place'])
      .modifyEnd(sql`strict, without rowid`)
      .execute()
    await db.schema
      .createTable('exercise_outcome')
      .addColumn('exercise_id', 'text', (column) => column.primaryKey().notNull().references('exercise.id'))
      .addColumn('outcome', 'text', object('outcome'))
      .modifyEnd(sql`strict, without rowid`)
      .execute()
    await db.schema
      .createTable('signed_off')
      .addColumn('learner_id', 'text', (column) => column.notNull().references('learner.id'))
      .addColumn('skill', 'text', filled('skill'))
      .addColumn('signed_by', 'text', filled('signed_by'))
      .addColumn('at', 'text', (column) => column.notNull())
      .addPrimaryKeyConstraint('signed_off_key', ['learner_id', 'skill'])
      .modifyEnd(sql`strict, without rowid`)
      .execute()
    await db.schema
      .createIndex('exercise_changed')
      .on('exercise')
      .columns(['learner_id', 'changed_at'])
      .execute()
    await db.schema
      .createIndex('set_exercise_latest')
      .on('set_exercise')
      .columns(['class_id', 'set_at'])
      .execute()
  },
}

type Column = (column: ColumnDefinitionBuilder) => ColumnDefinitionBuilder

const seed: Column = (column) => column.notNull().check(sql`seed between 0 and 4294967295`)
const filled =
  (name: string): Column =>
  (column) =>
    column.notNull().check(sql`trim(${sql.ref(name)}) <> ''`)
const object =
  (name: string): Column =>
  (column) =>
    column.notNull().check(sql`json_type(${sql.ref(name)}) is 'object'`)
