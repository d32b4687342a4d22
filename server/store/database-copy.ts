/**
 * A shop of a database as a file, and back. The file is what a shop in a file is copied to, so that one is looked at,
 * brought up to date and put back as the other; a shop may even change from the one to the other.
 */
import { copyFileSync, mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import type SQLite from 'better-sqlite3'
import type { Kysely } from 'kysely'
import { sql } from 'kysely'
import { keptAs } from './copies.js'
import { openStoreFile } from './store-file.js'

type Value = string | number | null
type Row = Readonly<Record<string, Value>>
interface Table {
  readonly name: string
  readonly columns: readonly string[]
}

/** Rows that are under way at a time. */
const atOnce = 300

/**
 * All that a shop has at one moment, while others read and write.
 *
 * @param to path; a file that is there is replaced once the copy is whole
 */
export const copyOfSchema = (db: Kysely<unknown>, schema: string, to: string): Promise<void> =>
  keptAs(to, async (part) => {
    const file = await openStoreFile(part)
    try {
      const { sqlite } = file
      sqlite.pragma('foreign_keys = off')
      // one snapshot for all tables (PostgreSQL, "Repeatable Read Isolation Level")
      await db
        .transaction()
        .setIsolationLevel('repeatable read')
        .setAccessMode('read only')
        .execute(async (within) => {
          for (const table of tablesIn(sqlite)) await copyTable(within, schema, table, sqlite)
        })
      if ((sqlite.pragma('foreign_key_check') as unknown[]).length > 0)
        throw new Error(`the copy ${part} came out torn`)
    } finally {
      await file.close()
    }
  })

async function copyTable(
  within: Kysely<unknown>,
  schema: string,
  { name, columns }: Table,
  to: SQLite.Database,
): Promise<void> {
  const ids = columns.map((column) => sql.id(column))
  const insert = to.prepare(
    `insert into ${quoted(name)} (${columns.map(quoted).join()}) values (${columns.map(() => '?').join()})`,
  )
  const put = to.transaction((rows: readonly Row[]) => {
    for (const row of rows) insert.run(columns.map((column) => row[column]))
  })
  // what a new file has of its own
  to.exec(`delete from ${quoted(name)}`)
  await sql`declare copied no scroll cursor for select ${sql.join(ids)} from ${sql.id(schema, name)}`.execute(
    within,
  )
  for (;;) {
    const { rows } = await sql<Row>`fetch ${sql.lit(atOnce)} from copied`.execute(within)
    if (rows.length === 0) break
    put(rows)
  }
  await sql`close copied`.execute(within)
}

/**
 * Puts a copy in the place of all that a shop has: everything or nothing.
 *
 * @param copy   path of one that was looked at
 * @param before what has to hold when nobody else can write any more; its error leaves everything as it was
 */
export async function putIntoSchema(
  copy: string,
  db: Kysely<unknown>,
  schema: string,
  before: (within: Kysely<unknown>) => Promise<void>,
): Promise<void> {
  const folder = mkdtempSync(join(tmpdir(), 'restore-'))
  try {
    // a copy of an older version is brought up to date, and stays as it is itself
    const path = join(folder, 'cases.db')
    copyFileSync(copy, path)
    const file = await openStoreFile(path)
    try {
      const tables = tablesIn(file.sqlite)
      await db.transaction().execute(async (within) => {
        await sql`truncate ${sql.join(tables.map(({ name }) => sql.id(schema, name)))}`.execute(within)
        await before(within)
        for (const table of tables) await putTable(within, schema, table, file.sqlite)
      })
    } finally {
      await file.close()
    }
  } finally {
    rmSync(folder, { recursive: true })
  }
}

async function putTable(
  within: Kysely<unknown>,
  schema: string,
  { name, columns }: Table,
  from: SQLite.Database,
): Promise<void> {
  const ids = sql.join(columns.map((column) => sql.id(column)))
  let rows: Row[] = []
  const put = async (): Promise<void> => {
    if (rows.length === 0) return
    const values = rows.map((row) => sql`(${sql.join(columns.map((column) => row[column]))})`)
    await sql`insert into ${sql.id(schema, name)} (${ids}) values ${sql.join(values)}`.execute(within)
    rows = []
  }
  for (const row of from.prepare(`select * from ${quoted(name)}`).iterate() as Iterable<Row>) {
    rows.push(row)
    if (rows.length === atOnce) await put()
  }
  await put()
}

/** What a shop keeps, with that before it which it points to. */
function tablesIn(sqlite: SQLite.Database): Table[] {
  const names = sqlite
    .prepare(
      "select name from sqlite_schema where type = 'table' and name not like 'sqlite_%' and name not like 'kysely_%'",
    )
    .pluck()
    .all() as string[]
  const listed = new Set<string>()
  const list = (name: string): void => {
    if (listed.has(name)) return
    for (const { table } of sqlite.pragma(`foreign_key_list(${quoted(name)})`) as { table: string }[])
      if (table !== name) list(table)
    listed.add(name)
  }
  names.sort().forEach(list)
  return [...listed].map((name) => ({
    name,
    columns: (sqlite.pragma(`table_info(${quoted(name)})`) as { name: string }[]).map(
      (column) => column.name,
    ),
  }))
}

const quoted = (name: string): string => `"${name}"`
