/** `npm run restore -- path-of-the-copy [--other-shop]`, while the program is stopped. */
import { join } from 'node:path'
import { CannotStart } from '../errors.js'
import { putBack } from '../store/restore.js'
import { configFrom } from '../wiring/config.js'

const [copy, ...rest] = process.argv.slice(2)
try {
  if (copy === undefined) throw new CannotStart('Say which copy: npm run restore -- path/of/the/copy.db')
  const file = join(configFrom(process.env).dataDir, 'cases.db')
  const { of, replaced } = putBack(copy, file, { otherShop: rest.includes('--other-shop') })
  console.log(`Restored: ${of.cases} cases, last changed ${of.lastChange ?? 'never'}.`)
  if (replaced !== null) console.log(`What was there before lies in ${replaced}.`)
} catch (error) {
  console.error(error instanceof CannotStart ? error.message : error)
  process.exitCode = 1
}
