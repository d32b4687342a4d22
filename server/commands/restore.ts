/** `npm run restore -- path-of-the-copy [--shop ID] [--other-shop]`, while the program is stopped. */
import { mkdirSync } from 'node:fs'
import { join } from 'node:path'
import { CannotStart } from '../errors.js'
import type { CopyOf } from '../store/copies.js'
import { putBack } from '../store/restore.js'
import { openShopDatabase } from '../store/shop-database.js'
import { configFrom } from '../wiring/config.js'
import { shopOf } from './shop-of.js'

const words = process.argv.slice(2).filter((word) => word !== '--other-shop')
const otherShop = process.argv.includes('--other-shop')
const which = (copy: string | undefined): string => {
  if (copy !== undefined) return copy
  throw new CannotStart('Say which copy: npm run restore -- path/of/the/copy.db')
}
try {
  const { dataDir, databaseUrl } = configFrom(process.env)
  const { of, replaced } =
    databaseUrl === undefined
      ? putBack(which(words[0]), join(dataDir, 'cases.db'), { otherShop })
      : await intoDatabase(databaseUrl, dataDir)
  console.log(`Restored: ${of.cases} cases, last changed ${of.lastChange ?? 'never'}.`)
  if (replaced !== null) console.log(`What was there before lies in ${replaced}.`)
} catch (error) {
  console.error(error instanceof CannotStart ? error.message : error)
  process.exitCode = 1
}

async function intoDatabase(url: string, dataDir: string): Promise<{ of: CopyOf; replaced: string }> {
  const database = await openShopDatabase(url, { program: 'clipperwright restore' })
  try {
    const { id, rest } = await shopOf(database, words)
    const folder = join(dataDir, 'backups', id)
    mkdirSync(folder, { recursive: true })
    const replaced = join(folder, `replaced-${new Date().toISOString().replace(/[:.]/g, '-')}.db`)
    return { of: await database.putBack(id, which(rest[0]), replaced, otherShop), replaced }
  } finally {
    await database.close()
  }
}
