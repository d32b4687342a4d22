/** All that is kept, as tables that other programs read. What signs people in stays here. */
import type { Kysely } from 'kysely'

type Row = Readonly<Record<string, string | number | null>>

export interface Exports {
  tables(): Promise<string[]>
  /** @param table one of `tables` */
  rows(table: string): Promise<Row[]>
  /** Every table, as they all were at one moment. */
  all(): Promise<[table: string, rows: Row[]][]>
}

/** Nobody's passphrase leaves the store, nor what a browser is known by, nor the secret address of the calendar. */
const secret = /^(kysely_|sqlite_|session$|door$|class_pass$|shop_habits$)/
const secretColumns: readonly string[] = ['passphrase']

/** @param schema of the shop, where the database has several */
export function exportsOf(file: Kysely<unknown>, schema?: string): Exports {
  const db = file as Kysely<Record<string, Record<string, string | number | null>>>
  const tables = async (): Promise<string[]> =>
    (await db.introspection.getTables())
      .filter((table) => table.schema === schema && !secret.test(table.name))
      .map(({ name }) => name)
      .sort()
  const rowsIn = async (within: typeof db, table: string): Promise<Row[]> => {
    const rows = await within.selectFrom(table).selectAll().execute()
    return rows.map((row) =>
      Object.fromEntries(Object.entries(row).filter(([column]) => !secretColumns.includes(column))),
    )
  }
  return {
    tables,
    rows: async (table) => ((await tables()).includes(table) ? rowsIn(db, table) : []),
    async all() {
      const names = await tables()
      // one snapshot (PostgreSQL, "Repeatable Read Isolation Level"); SQLite’s transactions are one of themselves
      return db
        .transaction()
        .setIsolationLevel('repeatable read')
        .setAccessMode('read only')
        .execute(async (within) => {
          const read: [string, Row[]][] = []
          for (const name of names) read.push([name, await rowsIn(within, name)])
          return read
        })
    },
  }
}
