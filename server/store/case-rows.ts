import { isDeepStrictEqual } from 'node:util'
import type { Kysely } from 'kysely'
import { LRUCache } from 'lru-cache'
import type { BenchCase } from '../../shared/case.js'
import { CaseEvent } from '../../shared/case.js'
import { FigureName, ShopRecord, usualRecord } from '../../shared/figures.js'
import { BadRequest, CaseNotFound, StaleForm, StaleShop, UnreadableCase } from '../errors.js'
import type { CaseStore } from '../cases/case-store.js'
import { whoActs } from './acting.js'
import type { CaseTable } from './case-list.js'
import { caseListIn } from './case-list.js'
import { listedAs } from './listed.js'
import { note } from './written-rows.js'

interface Tables {
  bench_case: CaseTable
  shop: { only: number; record: string; version: number }
  case_event: {
    case_id: string
    place: number
    at: string
    event: string
    by_person: string | null
  }
  person: { id: string; name: string }
}
type CaseRow = Pick<CaseTable, 'id' | 'kind' | 'tool' | 'begun_at' | 'changed_at' | 'event_count'>
type EventRow = Pick<Tables['case_event'], 'case_id' | 'place' | 'event'>

/**
 * The cases of a shop.
 *
 * @param newId makes the id of a new case; asked again when it is taken
 */
export function caseStoreIn(file: Kysely<unknown>, newId: () => string): CaseStore {
  return { ...storeOver(file as Kysely<Tables>, newId), ...caseListIn(file) }
}

/** Cases kept in memory as they were read last. */
const mostKept = 200

/** Events are never changed, only added: a case whose row says the same has nothing new, whoever writes to it. */
const isAsKept = (kept: CaseRow, row: CaseRow): boolean =>
  kept.changed_at === row.changed_at &&
  kept.event_count === row.event_count &&
  kept.kind === row.kind &&
  kept.tool === row.tool &&
  kept.begun_at === row.begun_at

function storeOver(db: Kysely<Tables>, newId: () => string): Omit<CaseStore, 'list' | 'count'> {
  const kept = new LRUCache<string, { row: CaseRow; bench: BenchCase }>({ max: mostKept })

  async function rowOf(id: string, from: Kysely<Tables> = db): Promise<CaseRow> {
    const row = await from.selectFrom('bench_case').selectAll().where('id', '=', id).executeTakeFirst()
    if (!row) throw new CaseNotFound(id)
    return row
  }

  async function read(row: CaseRow, from: Kysely<Tables> = db): Promise<BenchCase> {
    const events = await from
      .selectFrom('case_event')
      .select(['case_id', 'place', 'event'])
      .where('case_id', '=', row.id)
      .orderBy('place')
      .execute()
    return caseFrom(row, events)
  }

  /** The case as it is now, once the list says the same of it. */
  async function listed(id: string, within: Kysely<Tables>): Promise<BenchCase> {
    const now = await read(await rowOf(id, within), within)
    await within.updateTable('bench_case').set(listedAs(now)).where('id', '=', id).execute()
    return now
  }

  return {
    async begin({ kind, tool, at }) {
      const row = { kind, tool, begun_at: at, changed_at: at }
      for (;;) {
        const id = newId()
        const { numInsertedOrUpdatedRows } = await db
          .insertInto('bench_case')
          .values({ id, ...row, ...listedAs({ tool, events: [] }) })
          .onConflict((taken) => taken.column('id').doNothing())
          .executeTakeFirst()
        if (numInsertedOrUpdatedRows === 1n) return caseFrom({ id, ...row, event_count: 0 }, [])
      }
    },

    async get(id) {
      const row = await rowOf(id)
      const known = kept.get(id)
      if (known && isAsKept(known.row, row)) return known.bench
      const bench = await read(row)
      kept.set(id, { row, bench })
      return bench
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
        const { count, letters } = await within
          .selectFrom('case_event')
          .select((is) => is.fn.countAll<number>().as('count'))
          .select((is) =>
            is.fn.coalesce(is.fn.sum<number>(is.fn('length', ['event'])), is.val(0)).as('letters'),
          )
          .where('case_id', '=', id)
          .executeTakeFirstOrThrow()
        if (expectedCount !== undefined && expectedCount !== count) throw new StaleForm(id)
        const events = [event].flat().map((it) => CaseEvent.parse(it))
        if (isFull(count, letters) && !events.some(({ type }) => type === 'finished')) throw full()
        if (events.length > 0) {
          await within
            .insertInto('case_event')
            .values(
              events.map((it, i) => ({
                case_id: id,
                place: count + i,
                at,
                event: JSON.stringify(it),
                by_person: whoActs(),
              })),
            )
            .execute()
        }
        return listed(id, within)
      }),

    change: (id, to, at) =>
      db.transaction().execute(async (within) => {
        const { numUpdatedRows } = await within
          .updateTable('bench_case')
          .set({ ...to, changed_at: at })
          .where('id', '=', id)
          .executeTakeFirst()
        if (numUpdatedRows !== 1n) throw new CaseNotFound(id)
        return listed(id, within)
      }),

    remove: (id) =>
      db.transaction().execute(async (within) => {
        await within.deleteFrom('case_event').where('case_id', '=', id).execute()
        const { numDeletedRows } = await within
          .deleteFrom('bench_case')
          .where('id', '=', id)
          .executeTakeFirst()
        if (numDeletedRows !== 1n) throw new CaseNotFound(id)
        kept.delete(id)
      }),

    async shop() {
      const row = await db.selectFrom('shop').select(['record', 'version']).executeTakeFirst()
      return row ? { record: ShopRecord.parse(JSON.parse(row.record)), version: row.version } : null
    },

    async hands(id) {
      const rows = await db
        .selectFrom('case_event')
        .innerJoin('person', 'person.id', 'by_person')
        .select(['name', (is) => is.fn.min<number>('place').as('first')])
        .where('case_id', '=', id)
        .groupBy(['person.id', 'name'])
        .orderBy('first')
        .execute()
      return rows.map(({ name }) => name)
    },

    keepShop: (kept, seen) =>
      db.transaction().execute(async (within) => {
        const before = await within.selectFrom('shop').select('record').executeTakeFirst()
        const row = { only: 1, record: JSON.stringify(kept), version: seen + 1 }
        const { numInsertedOrUpdatedRows } = await within
          .insertInto('shop')
          .values(row)
          .onConflict((there) =>
            there
              .column('only')
              .doUpdateSet({ record: row.record, version: row.version })
              .where('shop.version', '=', seen),
          )
          .executeTakeFirst()
        if (numInsertedOrUpdatedRows !== 1n) throw new StaleShop()
        await note(within, 'figures', [{ id: '', did: ['changed', ...changedIn(before, kept)].join(' ') }])
      }),
  }
}

/** Names of the figures that are not what they were, and of the currency. */
function changedIn(before: { readonly record: string } | undefined, now: ShopRecord): string[] {
  const was = before ? ShopRecord.parse(JSON.parse(before.record)) : usualRecord
  const names = FigureName.options.filter((name) => !isDeepStrictEqual(was.figures[name], now.figures[name]))
  return was.currency.code === now.currency.code ? names : [...names, 'currency']
}

/** A case takes so much at most: a tool has some dozens of entries, and every page of a case reads them all. */
const mostEvents = 500
const mostLetters = 400_000

/** The end is always taken, so that nobody is stuck. */
const isFull = (events: number, letters: number): boolean => events >= mostEvents || letters >= mostLetters

const full = () =>
  new BadRequest(`A case takes ${mostEvents} entries at most; end this one and begin the tool anew.`, {
    status: 422,
  })

function caseFrom(row: CaseRow, events: readonly EventRow[]): BenchCase {
  const { id, kind, tool, begun_at: begunAt, changed_at: changedAt } = row
  return { id, kind, tool, begunAt, changedAt, events: events.map(eventFrom) }
}

function eventFrom({ case_id: id, place, event }: EventRow): CaseEvent {
  try {
    return CaseEvent.parse(JSON.parse(event))
  } catch (cause) {
    throw new UnreadableCase(id, place, { cause })
  }
}
