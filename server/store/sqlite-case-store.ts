import type SQLite from 'better-sqlite3'
import { sql } from 'kysely'
import type { GeneratedAlways, Kysely, Selectable } from 'kysely'
import { LRUCache } from 'lru-cache'
import type { BenchCase } from '../../shared/case.js'
import { CaseEvent } from '../../shared/case.js'
import { ShopRecord } from '../../shared/figures.js'
import { CaseNotFound, StaleForm } from '../errors.js'
import type { CaseStore, CaseSummary } from '../cases/case-store.js'
import { caseStateOf } from '../cases/fold.js'
import { confirmedOutcome } from '../cases/outcome.js'
import type { StoreFile } from './store-file.js'

interface Tables {
  bench_case: { id: string; kind: string; tool: string; begun_at: string; changed_at: string }
  shop: { only: number; record: string }
  case_event: { case_id: string; place: number; at: string; event: string; type: GeneratedAlways<string> }
}
type CaseRow = Selectable<Tables['bench_case']>
type EventRow = Pick<Selectable<Tables['case_event']>, 'case_id' | 'place' | 'event'>

/**
 * The cases in an open file.
 *
 * @param newId makes the id of a new case; asked again when it is taken
 */
export function caseStoreIn({ db, sqlite }: StoreFile, newId: () => string): CaseStore {
  return remembering(storeOver(db as Kysely<Tables>, newId), sqlite)
}

/** Cases kept in memory as they were read last. */
const mostKept = 200

/**
 * The same store, where a case that nobody has changed since is not read and checked again for every page.
 * What this program writes is forgotten here; `data_version` tells when another one has written to the file.
 */
function remembering(store: CaseStore, sqlite: SQLite.Database): CaseStore {
  const kept = new LRUCache<string, BenchCase>({ max: mostKept })
  const dataVersion = sqlite.prepare('pragma data_version').pluck()
  let version = dataVersion.get()
  let writes = 0
  const forgetting = <Written>(id: string, written: Promise<Written>): Promise<Written> =>
    written.finally(() => {
      writes++
      kept.delete(id)
    })
  return {
    ...store,
    async get(id) {
      const now = dataVersion.get()
      if (now !== version) kept.clear()
      version = now
      const known = kept.get(id)
      if (known) return known
      const before = writes
      const read = await store.get(id)
      if (writes === before) kept.set(id, read)
      return read
    },
    append: (id, ...rest) => forgetting(id, store.append(id, ...rest)),
    change: (id, ...rest) => forgetting(id, store.change(id, ...rest)),
    remove: (id) => forgetting(id, store.remove(id)),
  }
}

function storeOver(db: Kysely<Tables>, newId: () => string): CaseStore {
  async function read(id: string, from: Kysely<Tables> = db): Promise<BenchCase> {
    const row = await from.selectFrom('bench_case').selectAll().where('id', '=', id).executeTakeFirst()
    if (!row) throw new CaseNotFound(id)
    const events = await from
      .selectFrom('case_event')
      .select(['case_id', 'place', 'event'])
      .where('case_id', '=', id)
      .orderBy('place')
      .execute()
    return caseFrom(row, events)
  }

  return {
    async begin({ kind, tool, at }) {
      const row = { kind, tool, begun_at: at, changed_at: at }
      for (;;) {
        const id = newId()
        const { numInsertedOrUpdatedRows } = await db
          .insertInto('bench_case')
          .values({ id, ...row })
          .onConflict((taken) => taken.column('id').doNothing())
          .executeTakeFirst()
        if (numInsertedOrUpdatedRows === 1n) return caseFrom({ id, ...row }, [])
      }
    },

    get: (id) => read(id),

    async list({ open, most = 200 } = {}) {
      const rows = await db
        .selectFrom('bench_case')
        .selectAll()
        .orderBy('changed_at', 'desc')
        .orderBy('id')
        .execute()
      const events = await db
        .selectFrom('case_event')
        .select(['case_id', 'place', 'event'])
        .where((is) =>
          is.or([
            is('type', 'in', ['finished', 'reopened', 'came-back', 'still-away']),
            is.and([is('type', '=', 'answered'), is(sql`json_extract(event, '$.words')`, 'is not', null)]),
          ]),
        )
        .orderBy('place')
        .execute()
      const byCase = new Map<string, EventRow[]>(rows.map(({ id }) => [id, []]))
      for (const event of events) byCase.get(event.case_id)?.push(event)
      return rows
        .map((row) => summaryOf(caseFrom(row, byCase.get(row.id) ?? [])))
        .filter(({ state }) => open === undefined || open === (state === 'on-the-bench'))
        .slice(0, most)
    },

    append: (id, event, at, expectedCount) =>
      db.transaction().execute(async (within) => {
        // Writing first takes the write lock at once, so that no other process can slip in between.
        const { numUpdatedRows } = await within
          .updateTable('bench_case')
          .set({ changed_at: at })
          .where('id', '=', id)
          .executeTakeFirst()
        if (numUpdatedRows !== 1n) throw new CaseNotFound(id)
        const { count } = await within
          .selectFrom('case_event')
          .select((is) => is.fn.countAll<number>().as('count'))
          .where('case_id', '=', id)
          .executeTakeFirstOrThrow()
        if (expectedCount !== undefined && expectedCount !== count) throw new StaleForm(id)
        const events = [event].flat().map((it) => CaseEvent.parse(it))
        if (events.length > 0) {
          await within
            .insertInto('case_event')
            .values(events.map((it, i) => ({ case_id: id, place: count + i, at, event: JSON.stringify(it) })))
            .execute()
        }
        return read(id, within)
      }),

    async change(id, to, at) {
      const { numUpdatedRows } = await db
        .updateTable('bench_case')
        .set({ ...to, changed_at: at })
        .where('id', '=', id)
        .executeTakeFirst()
      if (numUpdatedRows !== 1n) throw new CaseNotFound(id)
      return read(id)
    },

    remove: (id) =>
      db.transaction().execute(async (within) => {
        await within.deleteFrom('case_event').where('case_id', '=', id).execute()
        const { numDeletedRows } = await within
          .deleteFrom('bench_case')
          .where('id', '=', id)
          .executeTakeFirst()
        if (numDeletedRows !== 1n) throw new CaseNotFound(id)
      }),

    async shop() {
      const row = await db.selectFrom('shop').select('record').executeTakeFirst()
      return row ? ShopRecord.parse(JSON.parse(row.record)) : null
    },

    async keepShop(kept) {
      const row = { only: 1, record: JSON.stringify(kept) }
      await db
        .insertInto('shop')
        .values(row)
        .onConflict((there) => there.column('only').doUpdateSet({ record: row.record }))
        .execute()
    },
  }
}

function caseFrom(row: CaseRow, events: readonly EventRow[]): BenchCase {
  const { id, kind, tool, begun_at: begunAt, changed_at: changedAt } = row
  return { id, kind, tool, begunAt, changedAt, events: events.map(eventFrom) }
}

function eventFrom({ case_id: id, place, event }: EventRow): CaseEvent {
  try {
    return CaseEvent.parse(JSON.parse(event))
  } catch (cause) {
    throw new Error(`Event ${place} of case ${id} cannot be read back from the file of cases`, { cause })
  }
}

function summaryOf({ events, ...rest }: BenchCase): CaseSummary {
  const told = events.find((event) => event.type === 'answered' && event.words !== undefined)
  return {
    ...rest,
    state: caseStateOf({ events }),
    words: told?.type === 'answered' ? (told.words ?? null) : null,
    outcome: confirmedOutcome({ events }),
  }
}
