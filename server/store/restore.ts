/** A copy put back: looked at first, and what it replaces is kept. */
import { copyFileSync, existsSync, mkdirSync, renameSync } from 'node:fs'
import { basename, join } from 'node:path'
import SQLite from 'better-sqlite3'
import type { CopyOf } from './copies.js'
import { BadCopy, lookAtCopy } from './copies.js'

/** The files that belong together: the cases, their log, and the note that ties the two. */
const parts = ['', '-wal', '-shm', '-open']

/**
 * @param copy       path of the copy
 * @param file       path of the file that it takes the place of
 * @param otherShop  put it back even where it is of another shop than the file that is there
 * @returns what was put back, and the folder in which the replaced one lies; null where there was none
 * @throws BadCopy where the copy cannot be used, is of another shop, or the program runs; nothing is changed then
 */
export function putBack(
  copy: string,
  file: string,
  { otherShop = false, now = new Date() }: { otherShop?: boolean; now?: Date } = {},
): { readonly of: CopyOf; readonly replaced: string | null } {
  const of = lookAtCopy(copy)
  if (existsSync(file)) mayReplace(file, of, otherShop)
  const fresh = `${file}-fresh`
  copyFileSync(copy, fresh)
  lookAtCopy(fresh)
  let replaced: string | null = null
  if (existsSync(file)) {
    replaced = join(file, '..', `replaced-${now.toISOString().replace(/[:.]/g, '-')}`)
    mkdirSync(replaced)
    for (const part of parts)
      if (existsSync(file + part)) renameSync(file + part, join(replaced, basename(file) + part))
  }
  renameSync(fresh, file)
  return { of, replaced }
}

function mayReplace(file: string, of: CopyOf, otherShop: boolean): void {
  let there: string | null
  try {
    const open = new SQLite(file, { timeout: 0 })
    try {
      // whoever has it open holds a lock that this one needs (sqlite.org/wal.html §2.3)
      open.pragma('locking_mode = exclusive')
      there = (open.prepare('select shop_id from whose').pluck().get() as string | undefined) ?? null
    } finally {
      open.close()
    }
  } catch (error) {
    if (error instanceof SQLite.SqliteError && error.code.startsWith('SQLITE_BUSY'))
      throw new BadCopy('The program is running. Stop it first, then restore. Nothing was changed.')
    // what lies there cannot be read: that is why somebody restores
    return
  }
  if (there !== null && of.shop !== null && there !== of.shop && !otherShop)
    throw new BadCopy(
      'The copy is of another shop than the one whose data lies here. Nothing was changed. If you mean it, add --other-shop.',
    )
}
