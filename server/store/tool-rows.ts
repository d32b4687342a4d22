import type { Kysely } from 'kysely'
import type { NewTool, ToolMove } from '../../shared/tool.js'
import { Tool, ToolDetails } from '../../shared/tool.js'
import { NotFound } from '../errors.js'
import type { ToolBook } from '../tools/tool-book.js'
import { note } from './written-rows.js'

interface Tables {
  tool: { id: string; name: string; kind: string; place: string; details: string; added_at: string }
  tool_move: { tool_id: string; at: string; place: ToolMove['place'] }
  tool_case: { case_id: string; tool_id: string }
  tool_photo: { tool_id: string; jpeg: string }
}

/**
 * The tools of a shop.
 *
 * @param newKey makes the id of a new tool, one that is not taken
 */
export function toolBookIn(file: Kysely<unknown>, newKey: () => string): ToolBook {
  const db = file as Kysely<Tables>

  async function get(id: string): Promise<Tool> {
    const row = await db.selectFrom('tool').selectAll().where('id', '=', id).executeTakeFirst()
    if (!row) throw new NotFound(`the tool "${id}"`)
    return toolFrom(row)
  }

  return {
    async list() {
      const rows = await db.selectFrom('tool').selectAll().execute()
      return rows.map(toolFrom).sort((a, b) => collator.compare(a.name, b.name) || (a.id < b.id ? -1 : 1))
    },

    get,

    add: (tools, at) =>
      db.transaction().execute(async (within) => {
        const rows = tools.map((tool) => ({ ...rowOf(tool), id: newKey(), added_at: at }))
        if (rows.length === 0) return []
        await within.insertInto('tool').values(rows).execute()
        await within
          .insertInto('tool_move')
          .values(rows.map(({ id, place }) => ({ tool_id: id, at, place: place as ToolMove['place'] })))
          .execute()
        await note(
          within,
          'tool',
          rows.map(({ id }) => ({ id, did: 'added' })),
        )
        return rows.map(toolFrom)
      }),

    change: (id, to, at) =>
      db.transaction().execute(async (within) => {
        // Writing first takes the lock: nobody else's change is lost between reading and writing.
        await within
          .updateTable('tool')
          .set((is) => ({ name: is.ref('name') }))
          .where('id', '=', id)
          .execute()
        const before = await within.selectFrom('tool').selectAll().where('id', '=', id).executeTakeFirst()
        if (!before) throw new NotFound(`the tool "${id}"`)
        const row = { ...before, ...rowOf({ ...toolFrom(before), ...to }) }
        await within.updateTable('tool').set(row).where('id', '=', id).execute()
        if (row.place !== before.place)
          await within
            .insertInto('tool_move')
            .values({ tool_id: id, at, place: row.place as ToolMove['place'] })
            .onConflict((there) =>
              there.columns(['tool_id', 'at']).doUpdateSet((is) => ({ place: is.ref('excluded.place') })),
            )
            .execute()
        await note(within, 'tool', [
          { id, did: row.place === before.place ? 'changed' : `place ${row.place}` },
        ])
        return toolFrom(row)
      }),

    remove: (id) =>
      db.transaction().execute(async (within) => {
        const { numDeletedRows } = await within.deleteFrom('tool').where('id', '=', id).executeTakeFirst()
        if (numDeletedRows !== 1n) throw new NotFound(`the tool "${id}"`)
        await note(within, 'tool', [{ id, did: 'removed' }])
      }),

    moves: (id) =>
      db.selectFrom('tool_move').select(['place', 'at']).where('tool_id', '=', id).orderBy('at').execute(),

    async allMoves() {
      const rows = await db.selectFrom('tool_move').selectAll().orderBy('tool_id').orderBy('at').execute()
      const moves = new Map<string, ToolMove[]>()
      for (const { tool_id, place, at } of rows) {
        const own = moves.get(tool_id)
        if (own) own.push({ place, at })
        else moves.set(tool_id, [{ place, at }])
      }
      return moves
    },

    async tie(caseId, toolId) {
      await db
        .insertInto('tool_case')
        .values({ case_id: caseId, tool_id: toolId })
        .onConflict((there) => there.column('case_id').doUpdateSet({ tool_id: toolId }))
        .execute()
    },

    async ofCase(caseId) {
      const row = await db
        .selectFrom('tool')
        .innerJoin('tool_case', 'tool_id', 'id')
        .selectAll('tool')
        .where('case_id', '=', caseId)
        .executeTakeFirst()
      return row ? toolFrom(row) : null
    },

    async casesOf(toolId) {
      const rows = await db.selectFrom('tool_case').select('case_id').where('tool_id', '=', toolId).execute()
      return rows.map((row) => row.case_id)
    },

    async ties() {
      const rows = await db.selectFrom('tool_case').selectAll().execute()
      return new Map(rows.map(({ case_id, tool_id }) => [case_id, tool_id]))
    },

    async photo(id) {
      const row = await db
        .selectFrom('tool_photo')
        .select('jpeg')
        .where('tool_id', '=', id)
        .executeTakeFirst()
      return row ? Buffer.from(row.jpeg, 'base64') : null
    },

    async keepPhoto(id, jpeg) {
      await get(id)
      if (jpeg === null) {
        await db.deleteFrom('tool_photo').where('tool_id', '=', id).execute()
        return
      }
      const text = jpeg.toString('base64')
      await db
        .insertInto('tool_photo')
        .values({ tool_id: id, jpeg: text })
        .onConflict((there) => there.column('tool_id').doUpdateSet({ jpeg: text }))
        .execute()
    },
  }
}

const collator = new Intl.Collator('en', { numeric: true })

const rowOf = ({ name, kind, place, details }: NewTool) => ({
  name,
  kind,
  place,
  details: JSON.stringify(ToolDetails.parse(details)),
})

function toolFrom({ id, name, kind, place, details, added_at: addedAt }: Tables['tool']): Tool {
  try {
    return Tool.parse({ id, name, kind, place, details: JSON.parse(details) as unknown, addedAt })
  } catch (cause) {
    throw new Error(`Tool ${id} cannot be read back from the file of cases`, { cause })
  }
}
