/** All that is kept, as tables that other programs read. What signs people in stays here. */
import type { Kysely } from 'kysely'

export interface Exports {
  tables(): Promise<string[]>
  /** @param table one of `tables` */
  rows(table: string): Promise<Readonly<Record<string, string | number | null>>[]>
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
  return {
    tables,
    async rows(table) {
      if (!(await tables()).includes(table)) return []
      const rows = await db.selectFrom(table).selectAll().execute()
      return rows.map((row) =>
        Object.fromEntries(Object.entries(row).filter(([column]) => !secretColumns.includes(column))),
      )
    },
  }
}
