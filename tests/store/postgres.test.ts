/** The same laws on a real PostgreSQL server, and what only several programs at once can show. */
import { afterAll, beforeAll, describe, expect, it } from 'vitest'
import { caseLaws } from './case-laws.js'
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
