import { existsSync } from 'node:fs'
import SQLite from 'better-sqlite3'
import { CannotStart } from '../errors.js'
import { applicationIn, forgetLog, numberLog, setForeignLogAside } from './write-ahead.js'

/** The file of cases cannot be trusted: overwritten or cut short. */
export class DamagedFile extends CannotStart {
  constructor(
    readonly file: string,
    options?: ErrorOptions,
  ) {
    super(
      `${file} is damaged, or no file of this program. Move it to a safe place and put back a copy if there ` +
        'is one, or set DATA_DIR to another folder. Nothing in it was changed.',
      options,
    )
  }
}

/** A whole SQLite file, but another program's. */
export class ForeignFile extends CannotStart {
  constructor(readonly file: string) {
    super(
      `${file} belongs to another program. Set DATA_DIR to another folder, or move the file away. ` +
        'Nothing in it was changed.',
    )
  }
}

/** "clpw": how a file says that it is of this program (SQLite file format §1.3.14). */
const ours = 0x636c7077
const memory = ':memory:'

/**
 * Opens the file and makes sure, before anybody relies on it, that it is ours, and can be read whole and written to:
 * a start that fails is better than an answer that is lost later. Who waits for a lock waits outside SQLite (`patient.ts`).
 *
 * @param file path, or `:memory:`
 * @param say  told what was found and set right
 * @throws DamagedFile, ForeignFile, or SqliteError when it cannot be opened or written
 */
export function openCaseFile(file: string, say: (words: string) => void = console.error): SQLite.Database {
  if (file !== memory) lookFirst(file, say)
  // at start another one may be bringing the same file up to date
  const sqlite = new SQLite(file, { timeout: 5000 })
  try {
    // First of all, so that a damaged file stays as it is for whoever may save what is in it.
    if (sqlite.pragma('quick_check(1)', { simple: true }) !== 'ok') throw new DamagedFile(file)
    if (!isOurs(sqlite)) throw new ForeignFile(file)
    // Readers never wait for a writer, and what was committed survives a power cut.
    sqlite.pragma('journal_mode = WAL')
    sqlite.pragma('synchronous = FULL')
    sqlite.pragma('foreign_keys = ON')
    // Only a real change tells: SQLite lets a transaction begin on a file that cannot be written to.
    sqlite.pragma(`application_id = ${ours}`)
    if (file === memory) sqlite.exec('begin immediate; pragma user_version = 1; rollback')
    else numberLog(sqlite, file)
    return sqlite
  } catch (error) {
    sqlite.close()
    throw isDamage(error) ? new DamagedFile(file, { cause: error }) : error
  }
}

/** Closes it, and leaves nothing beside it where no other program has it open. */
export function closeCaseFile(sqlite: SQLite.Database): void {
  const { name: file } = sqlite
  sqlite.close()
  if (file !== memory && !existsSync(`${file}-wal`)) forgetLog(file)
}

/** Written by us, or nothing in it yet. Before files were marked, they were known by their first migration. */
export function isOurs(sqlite: SQLite.Database): boolean {
  if (sqlite.pragma('application_id', { simple: true }) === ours) return true
  const tables = sqlite.prepare("select name from sqlite_schema where type = 'table'").pluck().all()
  if (tables.length === 0) return true
  if (!tables.includes('kysely_migration')) return false
  return sqlite.prepare("select 1 from kysely_migration where name = '001-cases'").get() !== undefined
}

/** Before SQLite opens it: that alone plays a log back. */
function lookFirst(file: string, say: (words: string) => void): void {
  if (!existsSync(file)) return
  const application = applicationIn(file)
  if (application !== null && application !== 0 && application !== ours) throw new ForeignFile(file)
  const aside = setForeignLogAside(file)
  if (aside !== null)
    say(
      `${file} was put there since it was last open. What the file before it had not written yet was set aside: ${aside}`,
    )
}

const isDamage = (error: unknown) =>
  error instanceof SQLite.SqliteError && /^SQLITE_(NOTADB|CORRUPT)/.test(error.code)
