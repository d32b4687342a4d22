/** `npm run shops`: the shops of the database of DATABASE_URL; `-- add NAME` one more, `-- name ID NAME` another name. */
import { CannotStart, Refused } from '../errors.js'
import { newCaseId } from '../cases/case-id.js'
import { linkCode } from '../people/link-code.js'
import { openShopDatabase } from '../store/shop-database.js'
import { configFrom } from '../wiring/config.js'

const [what = 'list', ...rest] = process.argv.slice(2)
try {
  const { databaseUrl } = configFrom(process.env)
  if (databaseUrl === undefined) throw new CannotStart('Set DATABASE_URL: a file has one shop.')
  const database = await openShopDatabase(databaseUrl)
  try {
    if (what === 'add') {
      if ((await database.shops()).some(({ name }) => name === ''))
        throw new CannotStart(
          'Name the first shop too, so that it is told from the new one: npm run shops -- name ID NAME',
        )
      const { id } = await database.addShop(rest.join(' '))
      const { people } = await database.open(id, { newId: newCaseId, newKey: newCaseId })
      const code = linkCode(id)
      await people.makeLink(code, null, new Date(Date.now() + 7 * 24 * 3_600_000).toISOString())
      console.log(`Its first lead opens, within a week, /welcome/${code} at the address of the server.`)
    } else if (what === 'name') {
      await database.rename(rest[0] ?? '', rest.slice(1).join(' '))
    } else if (what !== 'list') {
      throw new CannotStart('Say add NAME, or name ID NAME, or nothing for a list.')
    }
    for (const { id, name } of await database.shops()) console.log(`${id}  ${name || '(no name yet)'}`)
  } finally {
    await database.close()
  }
} catch (error) {
  console.error(error instanceof CannotStart || error instanceof Refused ? error.message : error)
  process.exitCode = 1
}
