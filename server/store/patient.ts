/** What a store says when it cannot be written just now: tried again while others are served, then in words. */
import { setTimeout as after } from 'node:timers/promises'
import { StoreTrouble } from '../errors.js'

/** Milliseconds between two tries, and of all of them together. */
const pause = 25
const patience = 3000

/**
 * The same store, where each of its functions waits for a lock that another program holds. Each must be one
 * transaction or one statement, so that nothing of a try that failed was done.
 *
 * @throws StoreTrouble where it stays locked, the disk is full, or it cannot be reached or written any more
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
      const code = codeOf(error)
      if (tryAgain.test(code) && performance.now() < until) await after(pause)
      else throw inWords(code, error)
    }
  }
}

/** Of SQLite (sqlite.org/rescode.html), of PostgreSQL (its appendix A), or of the system; nothing was done under these. */
const tryAgain = /^(SQLITE_BUSY|40001|40P01|ECONNREFUSED|57P03|53300)/

const troubles: readonly (readonly [code: RegExp, status: 503 | 507, words: string])[] = [
  [
    /^(SQLITE_BUSY|40001|40P01)/,
    503,
    'Another program holds the shop’s file, so nothing was kept. Close what has it open, such as a backup ' +
      'program, then try again.',
  ],
  [
    /^(SQLITE_FULL|53100)$/,
    507,
    'The disk of the shop’s computer is full, so nothing was kept. Make room, then try again.',
  ],
  [
    /^(SQLITE_(READONLY|IOERR|CANTOPEN)|25006$)/,
    503,
    'The shop’s file cannot be written, so nothing was kept. Look whether its disk is there and may be written to.',
  ],
  [
    /^(ECONN|ENOTFOUND|EPIPE|ETIMEDOUT|08|57P|53300|connection lost$)/,
    503,
    'The shop’s database cannot be reached just now. Look whether what you did was kept before you do it again.',
  ],
]

function inWords(code: string, cause: unknown): unknown {
  const [, status, words] = troubles.find(([its]) => its.test(code)) ?? []
  return status !== undefined && words !== undefined ? new StoreTrouble(words, status, { cause }) : cause
}

/** Connections that break carry no code, only words. */
function codeOf(error: unknown): string {
  if (!(error instanceof Error)) return ''
  if ('code' in error && typeof error.code === 'string') return error.code
  return /^(Connection terminated|timeout exceeded when trying to connect|Client has encountered a connection error)/.test(
    error.message,
  )
    ? 'connection lost'
    : ''
}
