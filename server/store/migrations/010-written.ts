import type { Kysely, Migration } from 'kysely'

/** Who wrote what of tools, parts, care and figures, and when; and the passes of phones that joined a class. */
export const written: Migration = {
  async up(db: Kysely<unknown>): Promise<void> {
    await db.schema
      .createTable('written')
      .addColumn('id', 'text', (column) => column.primaryKey().notNull())
      .addColumn('at', 'text', (column) => column.notNull())
      .addColumn('about', 'text', (column) => column.notNull())
      .addColumn('about_id', 'text', (column) => column.notNull())
      .addColumn('did', 'text', (column) => column.notNull())
      .addColumn('by_person', 'text', (column) => column.references('person.id').onDelete('set null'))
      .execute()
    await db.schema.createIndex('written_about').on('written').columns(['about', 'about_id', 'id']).execute()
    await db.schema.createIndex('written_by').on('written').column('by_person').execute()
    await db.schema
      .createTable('class_pass')
      .addColumn('digest', 'text', (column) => column.primaryKey().notNull())
      .addColumn('learners', 'text', (column) => column.notNull())
      .addColumn('until', 'text', (column) => column.notNull())
      .execute()
  },
}
