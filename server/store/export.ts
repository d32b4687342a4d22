/** All that is kept, as tables that other programs read. What signs people in stays here. */
import type { Kysely } from 'kysely'
import { sql } from 'kysely'

export interface Exports {
  tables(): Promise<string[]>
  /** @param table one of `tables` */
  rows(table: string): Promise<Readonly<Record<string, string | number | null>>[]>
}

/** Nobody's passphrase leaves the file, nor what a browser is known by, nor the secret address of the calendar. */
const secret = /^(kysely_|sqlite_|session$|door$|shop_habits$)/
const secretColumns: readonly string[] = ['passphrase']

export function exportsOf(db: Kysely<unknown>): Exports {
  const tables = async (): Promise<string[]> =>
    (await db.introspection.getTables())
      .map(({ name }) => name)
      .filter((name) => !secret.test(name))
      .sort()
  return {
    tables,
    async rows(table) {
      if (!(await tables()).includes(table)) return []
      const { rows } = await sql<
        Record<string, string | number | null>
      >`select * from ${sql.table(table)}`.execute(db)
      return rows.map((row) =>
        Object.fromEntries(Object.entries(row).filter(([column]) => !secretColumns.includes(column))),
      )
    },
  }
}
