/** `npm run backup -- [path]`, whether the program runs or not: one whole file, of one moment. */
import { join } from 'node:path'
import SQLite from 'better-sqlite3'
import { CannotStart } from '../errors.js'
import { copyTo, lookAtCopy } from '../store/copies.js'
import { configFrom } from '../wiring/config.js'

try {
  const { dataDir } = configFrom(process.env)
  const day = new Date().toISOString().slice(0, 10)
  const to = process.argv[2] ?? `clipperwright-${day}.db`
  await withFile(join(dataDir, 'cases.db'), (sqlite) => copyTo(sqlite, to))
  const { cases, lastChange } = lookAtCopy(to)
  console.log(`${to}: ${cases} cases, last changed ${lastChange ?? 'never'}.`)
} catch (error) {
  console.error(error instanceof CannotStart ? error.message : error)
  process.exitCode = 1
}

async function withFile(file: string, work: (sqlite: SQLite.Database) => Promise<void>): Promise<void> {
  let sqlite: SQLite.Database
  try {
    sqlite = new SQLite(file, { readonly: true, fileMustExist: true })
  } catch (cause) {
    throw new CannotStart(`There is nothing to copy at ${file}; set DATA_DIR to the folder of your cases.`, {
      cause,
    })
  }
  try {
    await work(sqlite)
  } finally {
    sqlite.close()
  }
}
