import SQLite from 'better-sqlite3'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import { newCaseId } from '../../server/cases/case-id.js'
import { NewerFile } from '../../server/store/migrations/migrations.js'
import type { OpenCaseStore } from './open-case-store.js'
import { openCaseStore } from './open-case-store.js'

let folder: string
let file: string
let store: OpenCaseStore

const open = () => openCaseStore({ file, newId: newCaseId })
beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'case-store-test-'))
  file = join(folder, 'cases.db')
  store = await open()
})
afterEach(async () => {
  await store.close()
  rmSync(folder, { recursive: true })
})
const begin = () => store.begin({ kind: 'bench-motor', tool: 'Chair 2', at: '2026-03-02T09:00:00.000Z' })

describe('the schema of the file', () => {
  it('lists cases from an index', () => {
    const raw = new SQLite(file)
    const plan = raw
      .prepare(
        "explain query plan select * from bench_case where state = 'set-aside' order by changed_at desc, id desc limit 30",
      )
      .all() as { detail: string }[]
    raw.close()
    expect(plan.map(({ detail }) => detail).join('; ')).toMatch(
      /^SEARCH bench_case USING INDEX bench_case_listed/,
    )
  })

  it('is refused, unchanged, when a newer version of the program wrote it', async () => {
    await begin()
    await store.close()
    const raw = new SQLite(file)
    raw.prepare(`insert into kysely_migration (name, timestamp) values ('999-sung-complaints', '2030')`).run()
    raw.close()
    await expect(open()).rejects.toThrow(NewerFile)
    await expect(open()).rejects.toThrow(/newer version.*999-sung-complaints.*DATA_DIR/s)
    const after = new SQLite(file)
    after.prepare(`delete from kysely_migration where name like '999%'`).run()
    after.close()
    store = await open()
    expect(await store.list()).toHaveLength(1)
  })
  // sqlite.org/wal.html: what was committed is found again in the log, whoever was killed since.
  it('is kept in a write-ahead log', () => {
    const raw = new SQLite(file)
    expect(raw.pragma('journal_mode', { simple: true })).toBe('wal')
    raw.close()
  })
})

// Crockford, "Base 32" (crockford.com/base32.html): ten digits and the letters without I, L, O and U.
it('makes ids of eight letters that are hard to mistake and never the same', () => {
  const made = Array.from({ length: 2000 }, newCaseId)
  for (const id of made) expect(id).toMatch(/^[0123456789abcdefghjkmnpqrstvwxyz]{8}$/)
  expect(new Set(made).size).toBe(made.length)
  expect(new Set(made.join('')).size).toBe(32)
})
