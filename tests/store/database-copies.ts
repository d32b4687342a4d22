/** A shop of a database copied while others write, looked at by the file's own means, and put back. */
import SQLite from 'better-sqlite3'
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { gunzipSync } from 'node:zlib'
import { afterAll, beforeAll, expect, it } from 'vitest'
import { usualRecord } from '../../shared/figures.js'
import { lookAtCopy } from '../../server/store/copies.js'
import { putBack } from '../../server/store/restore.js'
import type { ShopDatabase } from '../../server/store/shop-database.js'
import { openShopDatabase } from '../../server/store/shop-database.js'
import type { Stores } from '../../server/store/stores.js'
import { openStores } from '../../server/store/stores.js'
import { counting, looked, outcomeWith, tool } from '../register/open-register.js'
import type { PostgresServer } from './postgres-server.js'

const at = '2026-03-02T09:00:00.000Z'
const hot = { type: 'lifted' as const, stop: 'hot', by: 'Ann \u0000 \uF8FE 𝒵' }
/** Stands for the command, which is no program that serves. */
const program = 'clipperwright test'

export function databaseCopies(server: () => PostgresServer): void {
  let folder: string
  let url: string
  let database: ShopDatabase
  let shop: string
  let stores: Stores
  const newKey = counting()
  const ids = { newId: newKey, newKey }
  beforeAll(async () => {
    folder = mkdtempSync(join(tmpdir(), 'database-copies-'))
    url = await server().freshUrl()
    database = await openShopDatabase(url, { program, copies: { folder: join(folder, 'backups'), keep: 2 } })
    shop = (await database.shops())[0]!.id
    stores = await database.open(shop, ids)
    const { cases, register, tools, care, parts, people } = stores
    const { id } = await cases.begin({ kind: 'bench-motor', tool: 'Chair "2"', at })
    await cases.append(id, [hot, hot], at)
    await cases.keepShop(usualRecord, 0)
    const ofClass = await register.addClass({ name: 'Evening', at })
    const ann = await register.addLearner({ name: 'Ann', class: ofClass.id, at })
    const begun = await register.begin({ ...tool, learner: ann.id, at })
    await register.makeMove(begun.id, looked, at, 0, outcomeWith())
    const [clipper] = await tools.add(
      [{ name: 'Black one', kind: 'bench-motor', place: 'in-use', details: {} }],
      at,
    )
    await tools.tie(id, clipper!.id)
    await care.log('b1', [{ toolId: clipper!.id, task: 'oil', day: '2026-03-02' }], { who: 'Ann', at })
    const oil = await parts.add({
      name: 'Oil',
      details: { supplierDays: 7, is: [], perUse: 0.005, care: [] },
    })
    await parts.move('m1', [{ key: 'k', partId: oil.id, change: 0.1, why: { for: 'bought' } }], at)
    await people.add({ name: 'Ada', role: 'lead', at })
  })
  afterAll(async () => {
    await database.close()
    rmSync(folder, { recursive: true })
  })

  /** Rows of a table have no order, so they are compared in one of ours. */
  const everything = async ({ exports }: Stores) => {
    const tables = await exports.tables()
    const inOrder = async (name: string) =>
      (await exports.rows(name)).map((row) => JSON.stringify(row)).sort()
    return Object.fromEntries(
      await Promise.all(tables.map(async (name) => [name, await inOrder(name)] as const)),
    )
  }
  const fresh = async () => {
    const to = await openShopDatabase(await server().freshUrl(), { program })
    const [first] = await to.shops()
    return { to, id: first!.id }
  }
  const replaced = () => join(folder, `replaced-${newKey()}.db`)

  it('a copy made while cases are written is a whole file, and has each pair of entries or neither', async () => {
    const { id } = await stores.cases.begin({ kind: 'bench-motor', tool: 'Busy', at })
    let writing = true
    const writer = (async () => {
      for (let count = 0; writing && count < 400; count += 2)
        await stores.cases.append(id, [hot, hot], at, count)
    })()
    const made = await stores.copies!.make()
    writing = false
    await writer
    expect(lookAtCopy(made.path)).toMatchObject({ cases: 2, lastChange: at })
    const raw = new SQLite(made.path, { readonly: true })
    expect(Number(raw.prepare('select count(*) from case_event').pluck().get()) % 2).toBe(0)
    expect(raw.pragma('integrity_check(1)', { simple: true })).toBe('ok')
    raw.close()
  })

  it('is put back to the last letter: into another database, and into a file', async () => {
    const copy = join(folder, 'copy.db')
    await database.copyTo(shop, copy)
    const before = await everything(stores)
    const { to, id } = await fresh()
    expect((await to.putBack(id, copy, replaced(), false)).cases).toBe(2)
    expect(await everything(await to.open(id, ids))).toEqual(before)
    await to.close()
    putBack(copy, join(folder, 'cases.db'))
    const file = await openStores({ file: join(folder, 'cases.db'), ...ids })
    expect(await everything(file)).toEqual(before)
    await file.close()
  })

  it('is refused while a program serves, or for another shop; what it replaces is kept', async () => {
    const copy = join(folder, 'copy.db')
    await database.copyTo(shop, copy)
    const { to, id } = await fresh()
    const theirs = await to.open(id, ids)
    await theirs.cases.begin({ kind: 'bench-motor', tool: 'Theirs', at })
    await expect(to.putBack(id, copy, replaced(), false)).rejects.toThrow(/another shop.*--other-shop/)
    const kept = replaced()
    await to.putBack(id, copy, kept, true)
    expect(lookAtCopy(kept).cases).toBe(1)
    await to.close()

    const serving = await openShopDatabase(url)
    const before = await everything(stores)
    await expect(database.putBack(shop, copy, replaced(), false)).rejects.toThrow(/running\. Stop it first/)
    await serving.close()
    // one that cannot be taken whole is not taken at all
    const raw = new SQLite(copy)
    raw.pragma('foreign_keys = off')
    raw.exec('delete from bench_case')
    raw.close()
    await expect(database.putBack(shop, copy, replaced(), false)).rejects.toThrow()
    expect(await everything(stores)).toEqual(before)
  })

  it('of an earlier version is brought up to date on its way', async () => {
    const copy = join(folder, 'earlier.db')
    const zipped = readFileSync(new URL('earlier/005-tools.db.gz', import.meta.url))
    writeFileSync(copy, gunzipSync(zipped))
    const { to, id } = await fresh()
    const { cases } = await to.putBack(id, copy, replaced(), false)
    expect(cases).toBeGreaterThan(0)
    expect(await (await to.open(id, ids)).cases.count()).toBe(cases)
    await to.close()
  })
}
