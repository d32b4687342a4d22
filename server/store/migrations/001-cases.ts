import type { Kysely, Migration } from 'kysely'
import { sql } from 'kysely'

/** A case and its events in order. An event is never changed or removed. */
export const cases: Migration = {
  async up(db: Kysely<unknown>): Promise<void> {
    await db.schema
      .createTable('bench_case')
      .addColumn('id', 'text', (column) => column.primaryKey().notNull())
      .addColumn('kind', 'text', (column) => column.notNull())
      .addColumn('tool', 'text', (column) => column.notNull())
      .addColumn('begun_at', 'text', (column) => column.notNull())
      .addColumn('changed_at', 'text', (column) => column.notNull())
      .modifyEnd(sql`strict, without rowid`)
      .execute()
    await db.schema
      .createTable('case_event')
      .addColumn('case_id', 'text', (column) => column.notNull().references('bench_case.id'))
      .addColumn('place', 'integer', (column) => column.notNull())
      .addColumn('at', 'text', (column) => column.notNull())
      .addColumn('event', 'text', (column) => column.notNull())
      .addColumn('type', 'text', (column) => column.generatedAlwaysAs(sql`json_extract(event, '$.type')`))
      .addPrimaryKeyConstraint('case_event_key', ['case_id', 'place'])
      .modifyEnd(sql`strict, without rowid`)
      .execute()
    await db.schema.createIndex('bench_case_changed').on('bench_case').column('changed_at').execute()
    await db.schema.createIndex('case_event_type').on('case_event').column('type').execute()
  },
}
