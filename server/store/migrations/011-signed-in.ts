import type { Kysely, Migration } from 'kysely'

/** Whether somebody was signed in who wrote: they may have been removed since, which is not the same as nobody. */
export const signedIn: Migration = {
  async up(db: Kysely<unknown>): Promise<void> {
    await db.schema
      .alterTable('written')
      .addColumn('signed_in', 'integer', (column) => column.notNull().defaultTo(0))
      .execute()
    await (db as Kysely<{ written: { signed_in: number; by_person: string | null } }>)
      .updateTable('written')
      .set({ signed_in: 1 })
      .where('by_person', 'is not', null)
      .execute()
  },
}
