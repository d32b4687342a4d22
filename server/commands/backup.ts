/** `npm run backup -- [path] [--shop ID]`, whether the program runs or not: one whole file, of one moment. */
import { join } from 'node:path'
import SQLite from 'better-sqlite3'
import { CannotStart } from '../errors.js'
import { copyTo, lookAtCopy } from '../store/copies.js'
import { openShopDatabase } from '../store/shop-database.js'
import { configFrom } from '../wiring/config.js'
import { shopOf } from './shop-of.js'

const words = process.argv.slice(2)
const named = (path: string | undefined, of = ''): string =>
  path ?? `clipperwright${of}-${new Date().toISOString().slice(0, 10)}.db`
try {
  const { dataDir, databaseUrl } = configFrom(process.env)
  const to =
    databaseUrl === undefined ? await ofFile(join(dataDir, 'cases.db')) : await ofDatabase(databaseUrl)
  const { cases, lastChange } = lookAtCopy(to)
  console.log(`${to}: ${cases} cases, last changed ${lastChange ?? 'never'}.`)
} catch (error) {
  console.error(error instanceof CannotStart ? error.message : error)
  process.exitCode = 1
}

/** @returns where the copy lies */
async function ofFile(file: string): Promise<string> {
  let sqlite: SQLite.Database
  try {
    sqlite = new SQLite(file, { readonly: true, fileMustExist: true })
  } catch (cause) {
    throw new CannotStart(`There is nothing to copy at ${file}; set DATA_DIR to the folder of your cases.`, {
      cause,
    })
  }
  try {
    const to = named(words[0])
    await copyTo(sqlite, to)
    return to
  } finally {
    sqlite.close()
  }
}

/** @returns where the copy lies */
async function ofDatabase(url: string): Promise<string> {
  const database = await openShopDatabase(url, { program: 'clipperwright backup' })
  try {
    const { id, rest } = await shopOf(database, words)
    const to = named(rest[0], `-${id}`)
    await database.copyTo(id, to)
    return to
  } finally {
    await database.close()
  }
}
