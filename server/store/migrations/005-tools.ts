import type { Kysely, Migration } from 'kysely'
import { sql } from 'kysely'

/** The shop's tools, what was cared for, what lies on the shelf. Days are ISO dates, instants ISO 8601 in UTC. */
export const tools: Migration = {
  async up(db: Kysely<unknown>): Promise<void> {
    await db.schema
      .createTable('tool')
      .addColumn('id', 'text', (column) => column.primaryKey().notNull())
      .addColumn('name', 'text', (column) => column.notNull())
      .addColumn('kind', 'text', (column) => column.notNull())
      .addColumn('place', 'text', (column) => column.notNull())
      .addColumn('details', 'text', (column) => column.notNull())
      .addColumn('added_at', 'text', (column) => column.notNull())
      .execute()
    await db.schema
      .createTable('tool_move')
      .addColumn('tool_id', 'text', (column) => column.notNull().references('tool.id').onDelete('cascade'))
      .addColumn('at', 'text', (column) => column.notNull())
      .addColumn('place', 'text', (column) => column.notNull())
      .addPrimaryKeyConstraint('tool_move_key', ['tool_id', 'at'])
      .execute()
    await db.schema
      .createTable('tool_case')
      .addColumn('case_id', 'text', (column) =>
        column.primaryKey().notNull().references('bench_case.id').onDelete('cascade'),
      )
      .addColumn('tool_id', 'text', (column) => column.notNull().references('tool.id').onDelete('cascade'))
      .execute()
    await db.schema.createIndex('tool_case_tool').on('tool_case').column('tool_id').execute()
    await db.schema
      .createTable('tool_photo')
      .addColumn('tool_id', 'text', (column) =>
        column.primaryKey().notNull().references('tool.id').onDelete('cascade'),
      )
      // base 64 of a small JPEG: the same column type wherever it is kept
      .addColumn('jpeg', 'text', (column) => column.notNull())
      .execute()
    await db.schema
      .createTable('care_done')
      .addColumn('id', 'text', (column) => column.primaryKey().notNull())
      // what was logged by one tap, to be taken back by one
      .addColumn('batch', 'text', (column) => column.notNull())
      .addColumn('tool_id', 'text', (column) => column.notNull().references('tool.id').onDelete('cascade'))
      .addColumn('task', 'text', (column) => column.notNull())
      .addColumn('day', 'text', (column) => column.notNull())
      .addColumn('at', 'text', (column) => column.notNull())
      .addColumn('who', 'text', (column) => column.notNull())
      .addColumn('details', 'text', (column) => column.notNull())
      .addColumn('undone_at', 'text')
      .execute()
    // what is due is seen from the index alone, however long the log
    await db.schema
      .createIndex('care_done_last')
      .on('care_done')
      .columns(['tool_id', 'task', 'day'])
      .where(sql.ref('undone_at'), 'is', null)
      .execute()
    await db.schema.createIndex('care_done_at').on('care_done').columns(['at', 'id']).execute()
    await db.schema.createIndex('care_done_task').on('care_done').columns(['task', 'day']).execute()
    await db.schema.createIndex('care_done_batch').on('care_done').column('batch').execute()
    await db.schema
      .createTable('part')
      .addColumn('id', 'text', (column) => column.primaryKey().notNull())
      .addColumn('name', 'text', (column) => column.notNull())
      .addColumn('details', 'text', (column) => column.notNull())
      .execute()
    await db.schema
      .createTable('part_move')
      .addColumn('id', 'text', (column) => column.primaryKey().notNull())
      .addColumn('batch', 'text', (column) => column.notNull())
      .addColumn('part_id', 'text', (column) => column.notNull().references('part.id').onDelete('cascade'))
      .addColumn('at', 'text', (column) => column.notNull())
      .addColumn('change', 'real', (column) => column.notNull())
      .addColumn('why', 'text', (column) => column.notNull())
      .addColumn('undone_at', 'text')
      .execute()
    await db.schema.createIndex('part_move_part').on('part_move').columns(['part_id', 'at']).execute()
    await db.schema.createIndex('part_move_batch').on('part_move').column('batch').execute()
    await db.schema
      .createTable('shop_habits')
      .addColumn('only', 'integer', (column) => column.primaryKey().check(sql`only = 1`))
      .addColumn('record', 'text', (column) => column.notNull())
      .execute()
  },
}
