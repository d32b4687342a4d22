/** What a store says when the file cannot be written just now: tried again while others are served, then in words. */
import { setTimeout as after } from 'node:timers/promises'
import SQLite from 'better-sqlite3'
import { StoreTrouble } from '../errors.js'

/** Milliseconds between two tries, and of all of them together. */
const pause = 25
const patience = 3000

/**
 * The same store, where each of its functions waits for a lock that another program holds on the file. Each must be one
 * transaction or one statement, so that nothing of a try that failed was done.
 *
 * @throws StoreTrouble where it stays locked, the disk is full, or the file cannot be written any more
 */
export function patient<Store extends object>(store: Store): Store {
  const wrapped = Object.entries(store).map(([name, its]: [string, unknown]) => [
    name,
    typeof its === 'function'
      ? (...given: unknown[]) => tried(() => (its as (...given: unknown[]) => unknown)(...given))
      : its,
  ])
  return Object.fromEntries(wrapped) as Store
}

async function tried(work: () => unknown): Promise<unknown> {
  const until = performance.now() + patience
  for (;;) {
    try {
      return await work()
    } catch (error) {
      const code = error instanceof SQLite.SqliteError ? error.code : ''
      if (code.startsWith('SQLITE_BUSY') && performance.now() < until) await after(pause)
      else throw inWords(code, error)
    }
  }
}

function inWords(code: string, cause: unknown): unknown {
  if (code.startsWith('SQLITE_BUSY'))
    return new StoreTrouble(
      'Another program holds the shop’s file, so nothing was kept. Close what has it open, such as a backup ' +
        'program, then try again.',
      503,
      { cause },
    )
  if (code === 'SQLITE_FULL')
    return new StoreTrouble(
      'The disk of the shop’s computer is full, so nothing was kept. Make room, then try again.',
      507,
      { cause },
    )
  if (/^SQLITE_(READONLY|IOERR|CANTOPEN)/.test(code))
    return new StoreTrouble(
      'The shop’s file cannot be written, so nothing was kept. Look whether its disk is there and may be written to.',
      503,
      { cause },
    )
  return cause
}
