/** Copies of the whole file, made while the program runs, and looked at before one is trusted. */
import { closeSync, fsyncSync, openSync, renameSync, rmSync } from 'node:fs'
import SQLite from 'better-sqlite3'
import { CannotStart } from '../errors.js'
import { isOurs } from './file.js'
import { knownMigrations } from './migrations/migrations.js'

/** A copy that cannot be put back; the text says why. */
export class BadCopy extends CannotStart {}

/** One whole file, of one moment, while others read and write (SQLite, "Using the SQLite Online Backup API"). */
export const copyTo = (sqlite: SQLite.Database, to: string): Promise<void> =>
  keptAs(to, (part) => sqlite.backup(part))

/**
 * Written beside its place, and put there once it is whole.
 *
 * @param to    path; a file that is there is replaced
 * @param write makes a file of ours at the path that it is given
 */
export async function keptAs(to: string, write: (part: string) => Promise<unknown>): Promise<void> {
  const part = `${to}-part`
  rmSync(part, { force: true })
  await write(part)
  const copy = new SQLite(part)
  try {
    // one file, without a log; and no log that lies about somewhere goes on from it (write-ahead.ts)
    copy.pragma('journal_mode = delete')
    copy.pragma('user_version = 0')
    if (copy.pragma('integrity_check(1)', { simple: true }) !== 'ok')
      throw new Error(`the copy ${part} came out damaged`)
  } finally {
    copy.close()
  }
  const written = openSync(part, 'r')
  fsyncSync(written)
  closeSync(written)
  renameSync(part, to)
}

/** What a copy is of. */
export interface CopyOf {
  /** null: made before files said whose they are */
  readonly shop: string | null
  readonly cases: number
  /** ISO 8601; null where there is no case */
  readonly lastChange: string | null
}

/** @throws BadCopy for a file that is damaged, another program's, or of a newer version */
export function lookAtCopy(path: string): CopyOf {
  let copy: SQLite.Database | undefined
  try {
    copy = new SQLite(path, { readonly: true, fileMustExist: true })
    if (copy.pragma('integrity_check(1)', { simple: true }) !== 'ok')
      throw new BadCopy(`${path} is damaged. Nothing was changed.`)
    if (!isOurs(copy) || !has(copy, 'bench_case'))
      throw new BadCopy(`${path} is no copy of this program’s file. Nothing was changed.`)
    const had = copy.prepare('select name from kysely_migration').pluck().all() as string[]
    const newer = had.filter((name) => !knownMigrations.includes(name))
    if (newer.length > 0)
      throw new BadCopy(
        `${path} was made by a newer version of this program (${newer.join(', ')}). Nothing was changed.`,
      )
    const shop = has(copy, 'whose') ? copy.prepare('select shop_id from whose').pluck().get() : null
    const { cases, lastChange } = copy
      .prepare('select count(*) as cases, max(changed_at) as lastChange from bench_case')
      .get() as Omit<CopyOf, 'shop'>
    return { shop: shop as string | null, cases, lastChange }
  } catch (error) {
    if (error instanceof BadCopy) throw error
    throw new BadCopy(`${path} cannot be read as a copy of this program’s file. Nothing was changed.`, {
      cause: error,
    })
  } finally {
    copy?.close()
  }
}

const has = (sqlite: SQLite.Database, table: string): boolean =>
  sqlite.prepare("select 1 from sqlite_schema where type = 'table' and name = ?").get(table) !== undefined
