import SQLite from 'better-sqlite3'
import { CannotStart } from '../errors.js'

/** The file of cases cannot be trusted: overwritten, cut short, or another program's. */
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

/**
 * Opens the file and makes sure, before anybody relies on it, that it can be read whole and written to:
 * a start that fails is better than an answer that is lost later.
 *
 * @param file path, or `:memory:`
 * @throws DamagedFile, or SqliteError when it cannot be opened or written
 */
export function openCaseFile(file: string): SQLite.Database {
  const sqlite = new SQLite(file)
  try {
    // First of all, so that a damaged file stays as it is for whoever may save what is in it.
    if (sqlite.pragma('quick_check(1)', { simple: true }) !== 'ok') throw new DamagedFile(file)
    // Readers never wait for a writer, and what was committed survives a power cut.
    sqlite.pragma('journal_mode = WAL')
    sqlite.pragma('synchronous = FULL')
    sqlite.pragma('foreign_keys = ON')
    // Only a real change, undone, tells: SQLite lets a transaction begin on a file that cannot be written to.
    const version = Number(sqlite.pragma('user_version', { simple: true }))
    sqlite.exec(`begin immediate; pragma user_version = ${version}; rollback`)
    return sqlite
  } catch (error) {
    sqlite.close()
    throw isDamage(error) ? new DamagedFile(file, { cause: error }) : error
  }
}

const isDamage = (error: unknown) =>
  error instanceof SQLite.SqliteError && /^SQLITE_(NOTADB|CORRUPT)/.test(error.code)
