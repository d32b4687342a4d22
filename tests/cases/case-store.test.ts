import SQLite from 'better-sqlite3'
import { mkdtempSync, rmSync } from 'node:fs'
import { tmpdir } from 'node:os'
import { join } from 'node:path'
import { afterEach, beforeEach, describe, expect, it } from 'vitest'
import type { CaseEvent } from '../../shared/case.js'
import { newCaseId } from '../../server/cases/case-id.js'
import type { OpenCaseStore } from './open-case-store.js'
import { NewerFile } from '../../server/store/migrations/migrations.js'
import { casesOfToday } from '../../server/cases/moved-ids.js'
import { openCaseStore } from './open-case-store.js'
import { BadRequest, CaseNotFound, StaleForm, UnreadableCase } from '../../server/errors.js'

const at = (minute: number) => new Date(Date.UTC(2026, 2, 2, 9, minute)).toISOString()
const hot: CaseEvent = { type: 'answered', step: 'how-it-runs', answers: { hot: 'yes' }, when: 'now' }
const finished: CaseEvent = { type: 'finished', state: 'boxed-for-service' }
const reopened: CaseEvent = { type: 'reopened' }

let folder: string
let file: string
let store: OpenCaseStore
let ids: string[]

const open = () => openCaseStore({ file, newId: () => ids.shift() ?? newCaseId() })

beforeEach(async () => {
  folder = mkdtempSync(join(tmpdir(), 'case-store-test-'))
  file = join(folder, 'cases.db')
  ids = ['one', 'two', 'three']
  store = await open()
})
afterEach(async () => {
  await store.close()
  rmSync(folder, { recursive: true })
})

const begin = (tool = 'Chair 2', minute = 0) => store.begin({ kind: 'bench-motor', tool, at: at(minute) })

describe('a stored case', () => {
  it('begins without events', async () => {
    const begun = await begin()
    expect(begun).toEqual({
      id: 'one',
      kind: 'bench-motor',
      tool: 'Chair 2',
      begunAt: at(0),
      changedAt: at(0),
      events: [],
    })
    expect(await store.get('one')).toEqual(begun)
  })
  it('takes another id when one is taken', async () => {
    ids = ['one', 'one', 'one', 'two']
    expect([(await begin()).id, (await begin()).id]).toEqual(['one', 'two'])
  })
  it('keeps its events in the order in which they came, over a restart', async () => {
    const { id } = await begin()
    await store.append(id, hot, at(1))
    await store.append(id, [finished, reopened], at(7))
    await store.close()
    store = await open()
    expect(await store.get(id)).toMatchObject({
      events: [hot, finished, reopened],
      begunAt: at(0),
      changedAt: at(7),
    })
  })
  it('gives the same from a file that is forgotten', async () => {
    const memory = await openCaseStore({ file: ':memory:', newId: () => 'one' })
    await memory.begin({ kind: 'bench-motor', tool: '', at: at(0) })
    expect((await memory.append('one', hot, at(1))).events).toEqual([hot])
    await memory.close()
  })
  it.each(["Robert'); DROP TABLE bench_case;--", '<script>alert(1)</script>', 'Chair \u0000 2 💈', '"\\'])(
    'keeps the name %j as it is',
    async (tool) => {
      const { id } = await begin(tool)
      expect((await store.get(id)).tool).toBe(tool)
      expect(await store.list()).toHaveLength(1)
    },
  )
  it('is not there under another id', async () => {
    await expect(store.get('nine')).rejects.toThrow(CaseNotFound)
    await expect(store.append('nine', hot, at(1))).rejects.toThrow(CaseNotFound)
    await expect(store.get("' OR 1=1 --")).rejects.toThrow(CaseNotFound)
  })
  it('takes no event that is none, and then keeps nothing of it', async () => {
    const { id } = await begin()
    const wrong = { ...hot, colour: 'red' } as unknown as CaseEvent
    await expect(store.append(id, [finished, wrong], at(1))).rejects.toThrow(/colour/)
    expect(await store.get(id)).toMatchObject({ events: [], changedAt: at(0) })
  })
  it('says which event cannot be read back, rather than leave it out', async () => {
    const { id } = await begin()
    await store.append(id, hot, at(1))
    const raw = new SQLite(file)
    raw.prepare(`update case_event set event = '{"type":"sung"}'`).run()
    raw.close()
    await expect(store.get(id)).rejects.toThrow(UnreadableCase)
    await expect(store.get(id)).rejects.toThrow(`Entry 1 of case "${id}"`)
    // and hides no other case
    await begin('Chair 3', 2)
    expect((await store.list()).map(({ tool }) => tool)).toEqual(['Chair 3', 'Chair 2'])
  })
})

describe('a form filled in on an old page', () => {
  it('is refused and changes nothing', async () => {
    const { id } = await begin()
    await store.append(id, hot, at(1), 0)
    await expect(store.append(id, finished, at(2), 0)).rejects.toThrow(StaleForm)
    expect(await store.get(id)).toMatchObject({ events: [hot], changedAt: at(1) })
  })
  it('wins once only when it is sent twice at the same moment', async () => {
    const { id } = await begin()
    const sent = await Promise.allSettled([1, 2, 3, 4].map((minute) => store.append(id, hot, at(minute), 0)))
    expect(sent.map(({ status }) => status).sort()).toEqual(['fulfilled', 'rejected', 'rejected', 'rejected'])
    expect((await store.get(id)).events).toHaveLength(1)
  })
})

describe('the list', () => {
  it('tells open from finished, lately changed first, with the words of the complaint', async () => {
    await begin('first', 0)
    await begin('second', 1)
    await begin('third', 2)
    await store.append('one', { ...hot, words: 'runs hot' }, at(5))
    await store.append('two', finished, at(6))
    await store.append('three', finished, at(3))
    await store.append('three', reopened, at(4))
    const brief = async (filter?: { open?: boolean; most?: number }) =>
      (await store.list(filter)).map(({ id, state, words }) => [id, state, words])
    expect(await brief()).toEqual([
      ['two', 'boxed-for-service', null],
      ['one', 'on-the-bench', 'runs hot'],
      ['three', 'on-the-bench', null],
    ])
    expect(await brief({ open: true, most: 1 })).toEqual([['one', 'on-the-bench', 'runs hot']])
    expect(await brief({ open: false })).toEqual([['two', 'boxed-for-service', null]])
  })
})

describe('a list of many', () => {
  beforeEach(async () => {
    ids = Array.from({ length: 240 }, (_, k) => `case-${k}`)
    await begin('The real one', 0)
    await store.append('case-0', { ...hot, words: 'Läuft HEISS' }, at(1))
    for (let k = 1; k < 210; k++) await begin(`Slip ${k}`, k)
  })
  it('is read in pages, none left out and none twice', async () => {
    const pages = await Promise.all([0, 100, 200].map((skip) => store.list({ most: 100, skip })))
    expect(pages.map((page) => page.length)).toEqual([100, 100, 10])
    expect(new Set(pages.flat().map(({ id }) => id)).size).toBe(210)
    expect(await store.count()).toBe(210)
  })
  it('tells those of which something was said from those that were only begun', async () => {
    expect((await store.list({ said: true })).map(({ id }) => id)).toEqual(['case-0'])
    expect(await store.count({ said: false })).toBe(209)
  })
  it('finds a tool by its name and by its complaint, whatever the capitals', async () => {
    expect(await store.list({ find: 'SLIP 20' })).toHaveLength(11)
    expect((await store.list({ find: 'läuft heiss' })).map(({ id }) => id)).toEqual(['case-0'])
    expect(await store.count({ find: '%' })).toBe(0)
    await store.change('case-0', { tool: 'Mirror 4' }, at(2))
    expect(await store.count({ find: 'mirror 4' })).toBe(1)
  })
  it('comes from an index', () => {
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
})

it('takes so many entries and no more, but for its end', async () => {
  const { id } = await begin()
  await store.append(
    id,
    Array.from({ length: 499 }, () => hot),
    at(1),
  )
  await store.append(id, hot, at(2))
  await expect(store.append(id, hot, at(3))).rejects.toThrow(BadRequest)
  expect((await store.get(id)).events).toHaveLength(500)
  expect((await store.append(id, finished, at(4))).events).toHaveLength(501)
  expect(await store.list({ open: false })).toHaveLength(1)
})

describe('ids that have moved', () => {
  it('are read as those of today, renames of renames included, and stay in the file as they were', async () => {
    const { id } = await begin()
    await store.append(id, [hot, { type: 'tried', fix: 'grease', outcome: 'no' }], at(1))
    const moved = {
      kinds: { 'bench-motor': 'corded-motor' },
      steps: { 'how-it-runs': 'running' },
      questions: { hot: 'warm', warm: 'too-hot' },
      fixes: { grease: 'regrease', regrease: 'grease' },
    }
    const today = casesOfToday(store, moved)
    expect(await today.get(id)).toMatchObject({
      kind: 'corded-motor',
      events: [{ step: 'running', answers: { 'too-hot': 'yes' } }, { fix: 'grease' }],
    })
    expect((await today.list())[0]).toMatchObject({ kind: 'corded-motor', words: null })
    expect((await store.get(id)).events[0]).toEqual(hot)
  })
  it('come as one object for each version of a case, so that what is computed from it is kept', async () => {
    const { id } = await begin()
    const moved = { kinds: { 'bench-motor': 'corded-motor' } }
    const first = await casesOfToday(store, moved).get(id)
    expect(await casesOfToday(store, moved).get(id)).toBe(first)
    await casesOfToday(store, moved).append(id, hot, at(1))
    expect((await casesOfToday(store, moved).get(id)).events).toEqual([hot])
  })
})

describe('the schema of the file', () => {
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
