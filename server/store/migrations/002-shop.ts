import type { Kysely, Migration } from 'kysely'
import { sql } from 'kysely'

/** The shop's own figures, as one JSON object; no row while nobody has set any. */
export const shop: Migration = {
  async up(db: Kysely<unknown>): Promise<void> {
    await db.schema
      .createTable('shop')
      .addColumn('only', 'integer', (column) => column.primaryKey().check(sql`only = 1`))
      .addColumn('figures', 'text', (column) => column.notNull())
      .modifyEnd(sql`strict`)
      .execute()
  },
}
