/** The same laws on a real PostgreSQL server, and what only several programs at once can show. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { caseLaws } from './case-laws.js'
import { Stopping } from '../../server/errors.js'
import { openShopDatabase } from '../../server/store/shop-database.js'
import { databaseCopies } from './database-copies.js'
import type { Ground } from './grounds.js'
import { inAFile, onPostgres } from './grounds.js'
import type { PostgresServer } from './postgres-server.js'
import { noPostgres, startPostgres } from './postgres-server.js'
import { registerLaws } from './register-laws.js'
import { shopLaws } from './shop-laws.js'
import { shopsApart } from './shops-apart.js'
import { counting } from '../register/open-register.js'

if (noPostgres !== null) console.error(noPostgres)

describe.skipIf(noPostgres !== null)(noPostgres ?? 'on PostgreSQL', () => {
  let server: PostgresServer
  beforeAll(async () => {
    server = await startPostgres()
  })
  const ground = onPostgres(() => server)
  afterAll(async () => {
    await ground.close()
    await server.stop()
  })

  describe('cases', () => caseLaws(ground))
  describe('the register', () => registerLaws(ground))
  describe('tools, care, shelf, people', () => shopLaws(ground))

  describe('its copies', () => databaseCopies(() => server))

  describe('several shops', () => shopsApart(() => server))

  it('ends what is under way before it closes, and tells whoever asks later that the program is being stopped', async () => {
    const database = await openShopDatabase(await server.freshUrl())
    const [shop] = await database.shops()
    const { cases } = await database.open(shop!.id, { newId: counting(), newKey: counting() })
    const underWay = cases.begin({ kind: 'bench-motor', tool: '', at: '2026-03-02T09:00:00.000Z' })
    await new Promise((resolve) => setImmediate(resolve))
    await database.close()
    await underWay
    await expect(cases.count()).rejects.toThrow(Stopping)
    await expect(database.shops()).rejects.toThrow(Stopping)
  })

  it('has the tables and columns of a file', async () => {
    const columns = async (its: Ground) => {
      await (await its.open(counting())).close()
      const all = await its.columns()
      await its.end()
      return all
    }
    expect(await columns(await ground())).toEqual(await columns(await inAFile()))
  })
})
