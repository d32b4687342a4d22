/** What the store can stand on. The same laws hold on each: opened anew there is what was there before. */
import SQLite from 'better-sqlite3'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import pg from 'pg'
import type { ShopDatabase } from '../../server/store/shop-database.js'
import { openShopDatabase } from '../../server/store/shop-database.js'
import type { Stores } from '../../server/store/stores.js'
import { openStores } from '../../server/store/stores.js'
import type { PostgresServer } from './postgres-server.js'

export interface Ground {
  /** Another program's view of the same shop. @param newId of cases and of everything else */
  open(newId: () => string): Promise<Stores>
  /** Changes what is kept past the program; `?` stand for what is given. */
  raw(statement: string, ...given: readonly (readonly unknown[])[]): Promise<void>
  /** `table.column` of all that is kept */
  columns(): Promise<string[]>
  end(): Promise<void>
}
export type NewGround = () => Promise<Ground>

export const inAFile: NewGround = () => {
  const folder = mkdtempSync(join(tmpdir(), 'store-test-'))
  const file = join(folder, 'cases.db')
  return Promise.resolve({
    open: (newId) => openStores({ file, newId, newKey: newId }),
    raw(statement, ...given) {
      const sqlite = new SQLite(file)
      const prepared = sqlite.prepare(statement)
      sqlite.transaction(() => (given.length === 0 ? [[]] : given).forEach((row) => prepared.run(...row)))()
      sqlite.close()
      return Promise.resolve()
    },
    columns() {
      const sqlite = new SQLite(file)
      const all = sqlite
        .prepare(
          "select t.name || '.' || c.name from sqlite_schema t, pragma_table_info(t.name) c where t.type = 'table'",
        )
        .pluck()
        .all() as string[]
      sqlite.close()
      return Promise.resolve(all.sort())
    },
    end: () => Promise.resolve(rmSync(folder, { recursive: true })),
  })
}

/**
 * On a server, in a database of its own: two programs have it open, and take turns. It is emptied between two tests,
 * because making all tables anew takes longer than most of them.
 */
export function onPostgres(server: () => PostgresServer): NewGround & { close(): Promise<void> } {
  let made: Promise<{ programs: ShopDatabase[]; client: pg.Client; shop: string }> | undefined
  const make = async () => {
    const url = await server().freshUrl()
    const programs = [await openShopDatabase(url), await openShopDatabase(url)]
    const shop = (await programs[0]!.shops())[0]!.id
    const client = new pg.Client(url)
    await client.connect()
    await client.query(`set search_path = "shop_${shop}"`)
    return { programs, client, shop }
  }
  const newGround = async (): Promise<Ground> => {
    const { programs, client, shop } = await (made ??= make())
    let turn = 0
    return {
      open: (newId) => programs[turn++ % 2]!.open(shop, { newId, newKey: newId }),
      async raw(statement, ...given) {
        let place = 0
        const numbered = statement.replace(/\?/g, () => `$${++place}`)
        for (const row of given.length === 0 ? [[]] : given) await client.query(numbered, [...row])
      },
      async columns() {
        const { rows } = await client.query<{ its: string }>(
          "select table_name || '.' || column_name as its from information_schema.columns where table_schema = current_schema",
        )
        return rows.map(({ its }) => its).sort()
      },
      async end() {
        await client.query(
          'truncate bench_case, person, practice_class, tool, part, shop, shop_habits cascade',
        )
      },
    }
  }
  const close = async (): Promise<void> => {
    const { programs, client } = (await made) ?? { programs: [] }
    await client?.end()
    for (const program of programs) await program.close()
  }
  return Object.assign(newGround, { close })
}
