import type { Kysely, Migration } from 'kysely'
import { sql } from 'kysely'

/** Whose file it is: a number by chance that goes along with every copy, so that a copy is put back where it belongs. */
export const whose: Migration = {
  async up(db: Kysely<unknown>): Promise<void> {
    await db.schema
      .createTable('whose')
      .addColumn('only', 'integer', (column) => column.primaryKey().check(sql`only = 1`))
      .addColumn('shop_id', 'text', (column) => column.notNull())
      .modifyEnd(sql`strict`)
      .execute()
    await sql`insert into whose (only, shop_id) values (1, lower(hex(randomblob(8))))`.execute(db)
  },
}
