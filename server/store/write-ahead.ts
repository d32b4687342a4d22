/**
 * Which file a write-ahead log belongs to. SQLite plays a log that it finds back into whatever file lies beside it, also
 * into a copy that was put there since: that tears the copy. So each opening numbers the file (its `user_version`,
 * which SQLite keeps in its first 100 bytes for programs) and notes the number beside it while it is open.
 */
import { randomInt } from 'node:crypto'
import {
  closeSync,
  existsSync,
  fsyncSync,
  openSync,
  readFileSync,
  readSync,
  renameSync,
  rmSync,
  statSync,
  writeSync,
} from 'node:fs'
import type SQLite from 'better-sqlite3'

const noteOf = (file: string): string => `${file}-open`

/**
 * Moves a log aside that belongs to another file than the one it lies beside.
 *
 * @returns where it lies now; null where all is in order
 */
export function setForeignLogAside(file: string, now: Date = new Date()): string | null {
  const log = `${file}-wal`
  if (!existsSync(file) || !existsSync(noteOf(file)) || !existsSync(log) || statSync(log).size === 0)
    return null
  if (noted(file).includes(numberIn(file))) return null
  const aside = `${log}-set-aside-${now.toISOString().replace(/[:.]/g, '-')}`
  renameSync(log, aside)
  rmSync(`${file}-shm`, { force: true })
  return aside
}

/**
 * Numbers the open file anew, so that a log which goes on from here is known by it. Each note is written under the lock
 * of the file, because another program may number it at the same time.
 */
export function numberLog(sqlite: SQLite.Database, file: string): void {
  const next = randomInt(1, 2 ** 31)
  const number = (): number => Number(sqlite.pragma('user_version', { simple: true }))
  // All that may lie in the file itself, until the new one is known to: a plug pulled meanwhile finds one of them.
  sqlite
    .transaction(() => {
      note(file, [...noted(file), number(), next])
      sqlite.pragma(`user_version = ${next}`)
    })
    .immediate()
  const [done] = sqlite.pragma('wal_checkpoint(TRUNCATE)') as [{ busy: number }]
  // Another program still reads what lay in the file before: its number is in the log, and may stay there for long.
  if (done.busy !== 0) return
  sqlite
    .transaction(() => {
      if (number() === next) note(file, [next])
    })
    .immediate()
}

/** The file was closed in order: there is no log any more. */
export const forgetLog = (file: string): void => rmSync(noteOf(file), { force: true })

const noted = (file: string): number[] =>
  existsSync(noteOf(file)) ? readFileSync(noteOf(file), 'utf8').split(/\s+/).map(Number) : []

function note(file: string, numbers: readonly number[]): void {
  const fresh = `${noteOf(file)}-new`
  const out = openSync(fresh, 'w')
  writeSync(out, numbers.join('\n'))
  fsyncSync(out)
  closeSync(out)
  renameSync(fresh, noteOf(file))
}

/** SQLite file format §1.3: the user version is a big-endian number at byte 60, the application's at 68. */
const numberIn = (file: string): number => headerOf(file)?.readInt32BE(60) ?? 0

/** Whose file it says it is; 0 where it says nothing, null where it is no SQLite file. */
export const applicationIn = (file: string): number | null => headerOf(file)?.readInt32BE(68) ?? null

function headerOf(file: string): Buffer | null {
  const header = Buffer.alloc(100)
  const from = openSync(file, 'r')
  try {
    const whole = readSync(from, header, 0, 100, 0) === 100
    return whole && header.toString('latin1', 0, 16) === 'SQLite format 3\0' ? header : null
  } finally {
    closeSync(from)
  }
}
