import type { Kysely } from 'kysely'
import type { Part } from '../../shared/part.js'
import { PartDetails, PartWhy } from '../../shared/part.js'
import { NotFound } from '../errors.js'
import type { PartShelf } from '../parts/part-shelf.js'
import { note } from './written-rows.js'

interface Tables {
  part: { id: string; name: string; details: string }
  part_move: {
    id: string
    batch: string
    part_id: string
    at: string
    change: number
    why: string
    undone_at: string | null
  }
}

/**
 * The shelf of a shop.
 *
 * @param newKey makes the id of a new part, one that is not taken
 */
export function partShelfIn(file: Kysely<unknown>, newKey: () => string): PartShelf {
  const db = file as Kysely<Tables>

  async function read(from: Kysely<Tables>, ids?: readonly string[]): Promise<Part[]> {
    const only = ids ? [...ids] : null
    const rows = await from
      .selectFrom('part')
      .selectAll()
      .$if(only !== null, (all) => all.where('id', 'in', only ?? []))
      .execute()
    const sums = await from
      .selectFrom('part_move')
      .select(['part_id', (is) => is.fn.sum<number | string>('change').as('stock')])
      .where('undone_at', 'is', null)
      .groupBy('part_id')
      .execute()
    const stock = new Map(sums.map((row) => [row.part_id, Number(row.stock)]))
    return rows.map(({ id, name, details }) => ({
      id,
      name,
      details: PartDetails.parse(JSON.parse(details)),
      stock: tidy(stock.get(id) ?? 0),
    }))
  }

  const there = (count: bigint, id: string): void => {
    if (count !== 1n) throw new NotFound(`the part "${id}"`)
  }

  return {
    async list() {
      return (await read(db)).sort((a, b) => collator.compare(a.name, b.name) || (a.id < b.id ? -1 : 1))
    },

    async get(id) {
      const [part] = await read(db, [id])
      if (!part) throw new NotFound(`the part "${id}"`)
      return part
    },

    add: ({ name, details }) =>
      db.transaction().execute(async (within) => {
        const id = newKey()
        await within
          .insertInto('part')
          .values({ id, name, details: JSON.stringify(PartDetails.parse(details)) })
          .execute()
        await note(within, 'part', [{ id, did: 'added' }])
        return { id, name, details, stock: 0 }
      }),

    change: (id, { name, details }) =>
      db.transaction().execute(async (within) => {
        const set = { name, details: JSON.stringify(PartDetails.parse(details)) }
        const { numUpdatedRows } = await within
          .updateTable('part')
          .set(set)
          .where('id', '=', id)
          .executeTakeFirst()
        there(numUpdatedRows, id)
        await note(within, 'part', [{ id, did: 'changed' }])
      }),

    remove: (id) =>
      db.transaction().execute(async (within) => {
        const { numDeletedRows } = await within.deleteFrom('part').where('id', '=', id).executeTakeFirst()
        there(numDeletedRows, id)
        await note(within, 'part', [{ id, did: 'removed' }])
      }),

    move: (batch, moves, at) =>
      db.transaction().execute(async (within) => {
        const short: Part[] = []
        for (const { key, partId, change, why } of moves) {
          // Writing first takes the lock of the part: what is read then is not taken by two.
          await within
            .updateTable('part')
            .set((is) => ({ name: is.ref('name') }))
            .where('id', '=', partId)
            .execute()
          const [part] = await read(within, [partId])
          if (!part) throw new NotFound(`the part "${partId}"`)
          const taken = Math.max(change, -part.stock)
          const { numInsertedOrUpdatedRows } = await within
            .insertInto('part_move')
            .values({
              id: `${batch}.${key}`,
              batch,
              part_id: partId,
              at,
              change: taken,
              why: JSON.stringify(PartWhy.parse(why)),
              undone_at: null,
            })
            .onConflict((before) => before.column('id').doNothing())
            .executeTakeFirst()
          if (numInsertedOrUpdatedRows !== 1n) continue
          await note(within, 'part', [{ id: partId, did: `stock ${taken}` }])
          if (taken > change) short.push(part)
        }
        return short
      }),

    undo: (batch, at) =>
      db.transaction().execute(async (within) => {
        const undone = await within
          .updateTable('part_move')
          .set({ undone_at: at })
          .where('batch', '=', batch)
          .where('undone_at', 'is', null)
          .returning(['part_id', 'change'])
          .execute()
        await note(
          within,
          'part',
          undone.map((row) => ({ id: row.part_id, did: `stock ${-row.change}` })),
        )
        return undone.length
      }),

    async movesOf(batches) {
      if (batches.length === 0) return []
      const rows = await db
        .selectFrom('part_move')
        .selectAll()
        .where('batch', 'in', [...batches])
        .where('undone_at', 'is', null)
        .execute()
      return rows.map(({ batch, part_id: partId, at, change, why }) => ({
        batch,
        partId,
        at,
        change,
        why: PartWhy.parse(JSON.parse(why)),
      }))
    },

    async used(since) {
      const rows = await db
        .selectFrom('part_move')
        .select(['part_id', (is) => is.fn.sum<number | string>('change').as('taken')])
        .where('undone_at', 'is', null)
        .where('change', '<', 0)
        .where('at', '>=', since)
        // a recount is no use of it
        .where('why', 'not like', '%"counted"%')
        .groupBy('part_id')
        .execute()
      return new Map(rows.map((row) => [row.part_id, -Number(row.taken)]))
    },
  }
}

const collator = new Intl.Collator('en', { numeric: true })

/** Sums of drops, without what floating point adds to them. */
const tidy = (count: number): number => Math.max(0, Math.round(count * 1e6) / 1e6)
