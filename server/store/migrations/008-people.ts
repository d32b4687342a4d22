import type { Kysely, Migration } from 'kysely'

/** People, the devices that they are signed in on, links that work once; and who said what of a case. */
export const people: Migration = {
  async up(db: Kysely<unknown>): Promise<void> {
    await db.schema
      .createTable('person')
      .addColumn('id', 'text', (column) => column.primaryKey().notNull())
      .addColumn('name', 'text', (column) => column.notNull())
      .addColumn('name_key', 'text', (column) => column.notNull().unique())
      .addColumn('role', 'text', (column) => column.notNull())
      .addColumn('passphrase', 'text')
      .addColumn('since', 'text', (column) => column.notNull())
      .execute()
    await db.schema
      .createTable('session')
      .addColumn('digest', 'text', (column) => column.primaryKey().notNull())
      .addColumn('person_id', 'text', (column) =>
        column.notNull().references('person.id').onDelete('cascade'),
      )
      .addColumn('seen_at', 'text', (column) => column.notNull())
      .execute()
    await db.schema
      .createTable('door')
      .addColumn('digest', 'text', (column) => column.primaryKey().notNull())
      .addColumn('person_id', 'text', (column) => column.references('person.id').onDelete('cascade'))
      .addColumn('until', 'text', (column) => column.notNull())
      .execute()
    await db.schema
      .alterTable('case_event')
      .addColumn('by_person', 'text', (column) => column.references('person.id').onDelete('set null'))
      .execute()
  },
}
