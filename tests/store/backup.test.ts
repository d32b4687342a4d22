/** A copy made while others write is one whole file of one moment; it is put back only where it belongs. */
import SQLite from 'better-sqlite3'
import {
  copyFileSync,
  existsSync,
  mkdtempSync,
  readFileSync,
  readdirSync,
  rmSync,
  writeFileSync,
} from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import Papa from 'papaparse'
import request from 'supertest'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { BadCopy, copyTo, lookAtCopy } from '../../server/store/copies.js'
import { copiesIn } from '../../server/store/daily-copies.js'
import { putBack } from '../../server/store/restore.js'
import { openStoreFile } from '../../server/store/store-file.js'
import { openStores } from '../../server/store/stores.js'
import { benchWith } from '../api/bench.js'

let folder: string
let file: string
let ids = 0
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), 'backup-test-'))
  file = join(folder, 'cases.db')
})
afterEach(() => rmSync(folder, { recursive: true }))

const open = (path = file) =>
  openStores({ file: path, newId: () => `case${++ids}`, newKey: () => `key${++ids}` })
const at = '2026-03-02T09:00:00.000Z'
const hot = {
  type: 'answered' as const,
  step: 'how-it-runs',
  answers: { hot: 'yes' as const },
  when: 'now' as const,
}

/** A shop with one case of that name. @returns where its copy lies */
async function copyOfShop(tool: string, path = file): Promise<string> {
  const stores = await open(path)
  await stores.cases.begin({ kind: 'bench-motor', tool, at })
  const { path: copy } = await stores.copies!.make()
  await stores.close()
  return copy
}
const toolsIn = async (): Promise<string[]> => {
  const stores = await open()
  const tools = (await stores.cases.list()).map(({ tool }) => tool)
  await stores.close()
  return tools
}

it('a copy made while cases are written is whole, and has each pair of entries or neither', async () => {
  const stores = await open()
  const { id } = await stores.cases.begin({ kind: 'bench-motor', tool: 'Chair 2', at })
  let writing = true
  const writer = (async () => {
    for (let count = 0; writing && count < 400; count += 2)
      await stores.cases.append(id, [hot, hot], at, count)
  })()
  const copies = [await stores.copies!.make(), await stores.copies!.make()]
  writing = false
  await writer
  await stores.close()
  for (const { path } of copies) {
    expect(lookAtCopy(path)).toMatchObject({ cases: 1, lastChange: at })
    const raw = new SQLite(path, { readonly: true })
    expect(Number(raw.prepare('select count(*) from case_event').pluck().get()) % 2).toBe(0)
    expect(raw.pragma('journal_mode', { simple: true })).toBe('delete')
    raw.close()
  }
  expect(readdirSync(join(folder, 'backups')).filter((name) => !name.endsWith('.db'))).toEqual([])
})

describe('a restore', () => {
  it('puts the copy back, and keeps what it replaces, log and all', async () => {
    const copy = await copyOfShop('As it was')
    const stores = await open()
    await stores.cases.begin({ kind: 'bench-motor', tool: 'Since then', at })
    await stores.close()
    const { of, replaced } = putBack(copy, file)
    expect(of.cases).toBe(1)
    expect(await toolsIn()).toEqual(['As it was'])
    const kept = await open(join(replaced!, 'cases.db'))
    expect(await kept.cases.count()).toBe(2)
    await kept.close()
  })
  it('works where the file is damaged or gone', async () => {
    const copy = await copyOfShop('As it was')
    writeFileSync(file, 'a letter to the barber '.repeat(400))
    expect(putBack(copy, file).replaced).not.toBeNull()
    expect(await toolsIn()).toEqual(['As it was'])
    rmSync(file)
    expect(putBack(copy, file).replaced).toBeNull()
    expect(await toolsIn()).toEqual(['As it was'])
  })
  it.each<[string, RegExp, (copy: string) => Promise<string> | string]>([
    [
      'of another shop',
      /another shop.*--other-shop/s,
      () => copyOfShop('Elsewhere', join(folder, 'other.db')),
    ],
    [
      'that is damaged',
      /damaged|cannot be read/,
      (copy) => {
        writeFileSync(copy, readFileSync(copy).fill(0x5a, 4096 * 3, 4096 * 7))
        return copy
      },
    ],
    [
      'of another program',
      /no copy of this program/,
      () => {
        const raw = new SQLite(join(folder, 'songs.db'))
        raw.exec('create table songs (name text)')
        raw.close()
        return join(folder, 'songs.db')
      },
    ],
    [
      'of a newer version',
      /newer version.*999-sung/,
      (copy) => {
        const raw = new SQLite(copy)
        raw.prepare("insert into kysely_migration values ('999-sung', '2030')").run()
        raw.close()
        return copy
      },
    ],
    ['that is not there', /cannot be read/, () => join(folder, 'nothing.db')],
  ])('refuses a copy %s, and changes nothing', async (_what, why, make) => {
    const own = await copyOfShop('Ours')
    const copy = await make(own)
    const before = readFileSync(file)
    expect(() => putBack(copy, file)).toThrow(BadCopy)
    expect(() => putBack(copy, file)).toThrow(why)
    expect(readFileSync(file).equals(before)).toBe(true)
    expect(readdirSync(folder).filter((name) => /fresh|replaced/.test(name))).toEqual([])
  })
  it('of another shop is done where somebody says so', async () => {
    await copyOfShop('Ours')
    const other = await copyOfShop('Elsewhere', join(folder, 'other.db'))
    putBack(other, file, { otherShop: true })
    expect(await toolsIn()).toEqual(['Elsewhere'])
  })
  it('is refused while the program runs', async () => {
    const copy = await copyOfShop('Ours')
    const stores = await open()
    await stores.cases.list()
    expect(() => putBack(copy, file)).toThrow(/running\. Stop it first/)
    await stores.close()
    putBack(copy, file)
  })
})

it('each night one, so many kept; what somebody asked for stays', async () => {
  const opened = await openStoreFile(file)
  let now = new Date(2026, 2, 1, 3)
  const copies = copiesIn(
    join(folder, 'backups'),
    (to) => copyTo(opened.sqlite, to),
    () => now,
    3,
  )
  for (let night = 0; night < 5; night++) {
    await copies.nightly()
    await copies.nightly()
    if (night === 0) await copies.make()
    now = new Date(now.getTime() + 24 * 3_600_000)
  }
  expect(
    copies
      .all()
      .map(({ name }) => name)
      .sort(),
  ).toEqual([
    'clipperwright-2026-03-01-030000.db',
    'clipperwright-2026-03-03.db',
    'clipperwright-2026-03-04.db',
    'clipperwright-2026-03-05.db',
  ])
  await opened.close()
})

it('a copy that fails leaves the one before as it was', async () => {
  const opened = await openStoreFile(file)
  const to = join(folder, 'nowhere', 'copy.db')
  await expect(copyTo(opened.sqlite, to)).rejects.toThrow()
  expect(existsSync(to)).toBe(false)
  await opened.close()
})

describe('the page of backups', () => {
  it('says when the last was made, makes one by one button, and hands it out', async () => {
    const bench = await benchWith({ file })
    expect((await request(bench.app).get('/shop/backups').expect(200)).text).toContain(
      'There is no backup yet',
    )
    await request(bench.app).post('/shop/backups').type('form').send({}).expect(303)
    const { text } = await request(bench.app).get('/shop/backups?made=yes').expect(200)
    expect(text).toMatch(/Last backup: \d/)
    const href = /href="(\/shop\/backups\/[^"]+\.db)"/.exec(text)![1]!
    const got = await request(bench.app)
      .get(href)
      .buffer(true)
      .parse((res, done) => {
        const parts: Buffer[] = []
        res.on('data', (part: Buffer) => parts.push(part))
        res.on('end', () => done(null, Buffer.concat(parts)))
      })
    expect(got.headers['content-disposition']).toMatch(/attachment/)
    const saved = join(folder, 'saved.db')
    writeFileSync(saved, got.body as Buffer)
    expect(lookAtCopy(saved).cases).toBe(0)
    copyFileSync(saved, join(folder, 'again.db'))
    for (const path of [
      '/shop/backups/cases.db',
      '/shop/backups/..%2fcases.db',
      '/shop/backups/%2e%2e%2fcases.db',
    ])
      expect((await request(bench.app).get(path)).status).toBe(404)
    await bench.close()
  })
  it('hands out everything as CSV and JSON that another library reads back', async () => {
    const bench = await benchWith()
    const odd = 'Chair "2", black\r\nand ; gold'
    const { id } = await bench.cases.begin({ kind: 'bench-motor', tool: odd, at })
    await bench.cases.append(id, { ...hot, words: 'runs, "hot"' }, at)
    const csv = (await request(bench.app).get('/shop/export/bench_case.csv').expect(200)).text
    const { data, errors } = Papa.parse<Record<string, string>>(csv.replace(/^\uFEFF/, ''), {
      header: true,
      skipEmptyLines: true,
    })
    expect(errors).toEqual([])
    expect(data).toHaveLength(1)
    expect(data[0]).toMatchObject({ id, tool: odd, words: 'runs, "hot"', event_count: '1' })
    const all = JSON.parse(
      (await request(bench.app).get('/shop/export.json').buffer(true).expect(200)).text,
    ) as Record<string, unknown[]>
    expect(all['case_event']).toMatchObject([{ case_id: id, place: 0 }])
    expect(Object.keys(all)).not.toContain('session')
    await request(bench.app).get('/shop/export/kysely_migration.csv').expect(404)
  })
})
