import SQLite from 'better-sqlite3'
import { Kysely, SqliteDialect } from 'kysely'
import { closeCaseFile, openCaseFile } from './file.js'
import { migrate } from './migrations/migrations.js'

/** The one file of the program, open and up to date. What is in it is shared by cases and register. */
export interface StoreFile {
  readonly sqlite: SQLite.Database
  /** over the same connection; each store knows its own tables */
  readonly db: Kysely<unknown>
  close(): Promise<void>
}

/** What a store in memory begins as: its tables are made once in a process, and copied from then on. */
let empty: Buffer | undefined

function copyOf(store: Buffer): SQLite.Database {
  const sqlite = new SQLite(store)
  sqlite.pragma('foreign_keys = ON')
  return sqlite
}

/**
 * Opens the file, making it or bringing it up to date where needed.
 *
 * @param file path, or `:memory:` for one that is forgotten when closed
 * @throws NewerFile when a later version of the program has written it, DamagedFile when it cannot be read
 */
export async function openStoreFile(file: string): Promise<StoreFile> {
  const copied = file === ':memory:' && empty
  const sqlite = copied ? copyOf(copied) : openCaseFile(file)
  const db = new Kysely<unknown>({ dialect: new SqliteDialect({ database: sqlite }) })
  try {
    if (!copied) await migrate(db, sqlite, file)
    if (file === ':memory:') empty ??= sqlite.serialize()
  } catch (error) {
    closeCaseFile(sqlite)
    throw error
  }
  // From now on nobody may wait inside SQLite, where everybody would wait along.
  sqlite.pragma('busy_timeout = 0')
  return {
    sqlite,
    db,
    async close() {
      await db.destroy()
      closeCaseFile(sqlite)
    },
  }
}
