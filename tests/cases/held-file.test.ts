/** The file held by another program, or its disk full: others are served meanwhile, and it is said in words. */
import SQLite from 'better-sqlite3'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { setTimeout as after } from 'node:timers/promises'
import request from 'supertest'
import { afterEach, beforeEach, expect, it, vi } from 'vitest'
import { StoreTrouble } from '../../server/errors.js'
import { openStores } from '../../server/store/stores.js'
import type { Stores } from '../../server/store/stores.js'
import { benchWith } from '../api/bench.js'

let folder: string
let stores: Stores
let other: SQLite.Database
beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'held-file-test-'))
  const file = join(folder, 'cases.db')
  stores = await openStores({ file, newId: () => 'one', newKey: () => 'key1' })
  other = new SQLite(file)
})
afterEach(async () => {
  other.close()
  await stores.close()
  rmSync(folder, { recursive: true })
})
const begin = () => stores.cases.begin({ kind: 'bench-motor', tool: '', at: '2026-03-02T09:00:00.000Z' })

it('whoever writes waits for the lock, and nobody else does', async () => {
  other.exec('begin immediate')
  let done = false
  const writing = begin().then(() => void (done = true))
  // the thread is free while it waits: timers run, and reads are answered
  for (let k = 0; k < 5; k++) await after(5)
  expect(await stores.cases.list()).toEqual([])
  expect(done).toBe(false)
  other.exec('rollback')
  await writing
  expect(await stores.cases.list()).toHaveLength(1)
})

it('a lock that stays is said in words, and nothing was kept', async () => {
  other.exec('begin immediate')
  const error: unknown = await begin().catch((it: unknown) => it)
  expect(error).toBeInstanceOf(StoreTrouble)
  expect(String(error)).toMatch(/Another program holds.*try again/s)
  other.exec('rollback')
  expect(await stores.cases.list()).toEqual([])
})

it('a full disk is said in words, on the page and to a program', async () => {
  const full = new SQLite.SqliteError('database or disk is full', 'SQLITE_FULL')
  const { patient } = await import('../../server/store/patient.js')
  const cases = patient({ begin: () => Promise.reject<never>(full) })
  const bench = await benchWith({ cases })
  const log = vi.spyOn(console, 'error').mockImplementation(() => {})
  const page = await request(bench.app).post('/cases').type('form').send({ kind: 'bench-motor', tool: '' })
  expect(page.status).toBe(507) // RFC 4918 §11.5
  expect(page.text).toMatch(/disk of the shop’s computer is full/)
  const api = await request(bench.app).post('/api/cases').send({ kind: 'bench-motor' })
  expect(api.status).toBe(507)
  expect(api.body).toMatchObject({ detail: expect.stringMatching(/Make room/) as string })
  log.mockRestore()
})
