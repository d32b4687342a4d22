import type { Kysely } from 'kysely'
import { sql } from 'kysely'
import type { CareDone } from '../../shared/care.js'
import { CareDetails } from '../../shared/care.js'
import { Habits } from '../../shared/habits.js'
import type { CareLog, LastDone } from '../care/care-log.js'
import { NotFound } from '../errors.js'

interface Tables {
  tool: { id: string }
  care_done: {
    id: string
    batch: string
    tool_id: string
    task: string
    day: string
    at: string
    who: string
    details: string
    undone_at: string | null
  }
  shop_habits: { only: number; record: string }
}

/** The log of care of a shop. */
export function careLogIn(file: Kysely<unknown>): CareLog {
  const db = file as Kysely<Tables>
  return {
    async log(batch, done, { who, at, details = {} }) {
      if (done.length === 0) return
      const ids = [...new Set(done.map(({ toolId }) => toolId))]
      const there = await db.selectFrom('tool').select('id').where('id', 'in', ids).execute()
      const missing = ids.find((id) => !there.some((row) => row.id === id))
      if (missing !== undefined) throw new NotFound(`the tool "${missing}"`)
      const rest = { batch, at, who, details: JSON.stringify(CareDetails.parse(details)), undone_at: null }
      const rows = done.map(({ toolId, task, day }) => ({
        id: `${batch}.${toolId}.${task}`,
        tool_id: toolId,
        task,
        day,
        ...rest,
      }))
      await db
        .insertInto('care_done')
        .values(rows)
        .onConflict((there) => there.column('id').doNothing())
        .execute()
    },

    async undo(batch, at) {
      const { numUpdatedRows } = await db
        .updateTable('care_done')
        .set({ undone_at: at })
        .where('batch', '=', batch)
        .where('undone_at', 'is', null)
        .executeTakeFirst()
      return Number(numUpdatedRows)
    },

    async lastDone(toolId) {
      // From index entry to index entry: a group over the log would read every line that was ever written.
      const { rows } = await sql<{ tool_id: string; task: string; day: string | null }>`
        with recursive named(task) as (
          select min(task) from care_done
          union all
          select (select min(task) from care_done where task > named.task) from named where task is not null
        )
        select tool.id as tool_id, named.task, (
          select max(day) from care_done
          where tool_id = tool.id and task = named.task and undone_at is null
        ) as day
        from tool, named
        where named.task is not null ${toolId === undefined ? sql`` : sql`and tool.id = ${toolId}`}
      `.execute(db)
      const last = new Map<string, Map<string, string>>()
      for (const { tool_id, task, day } of rows)
        if (day !== null) last.set(tool_id, (last.get(tool_id) ?? new Map<string, string>()).set(task, day))
      return last satisfies LastDone
    },

    async history({ toolId, task, fromDay, before, most }) {
      const rows = await db
        .selectFrom('care_done')
        .selectAll()
        .where('undone_at', 'is', null)
        .$if(toolId !== undefined, (all) => all.where('tool_id', '=', toolId ?? ''))
        .$if(task !== undefined, (all) => all.where('task', '=', task ?? ''))
        .$if(fromDay !== undefined, (all) => all.where('day', '>=', fromDay ?? ''))
        .$if(before !== undefined, (all) =>
          all.where((is) =>
            is.or([
              is('at', '<', before?.at ?? ''),
              is.and([is('at', '=', before?.at ?? ''), is('id', '<', before?.id ?? '')]),
            ]),
          ),
        )
        .orderBy('at', 'desc')
        .orderBy('id', 'desc')
        .limit(most)
        .execute()
      return rows.map(doneFrom)
    },

    async byMonth(toolId, fromDay) {
      const month = sql<string>`substr(day, 1, 7)`
      const rows = await db
        .selectFrom('care_done')
        .select([month.as('month'), (is) => is.fn.countAll<number | string>().as('count')])
        .where('undone_at', 'is', null)
        .where('tool_id', '=', toolId)
        .where('day', '>=', fromDay)
        .groupBy(month)
        .execute()
      return new Map(rows.map((row) => [row.month, Number(row.count)]))
    },

    async timesDone(fromDay) {
      const rows = await db
        .selectFrom('care_done')
        .select(['task', (is) => is.fn.countAll<number | string>().as('count')])
        .where('undone_at', 'is', null)
        .where('day', '>=', fromDay)
        .groupBy('task')
        .execute()
      return new Map(rows.map((row) => [row.task, Number(row.count)]))
    },

    async habits() {
      const row = await db.selectFrom('shop_habits').select('record').executeTakeFirst()
      return row ? Habits.parse(JSON.parse(row.record)) : null
    },

    async keepHabits(habits) {
      const row = { only: 1, record: JSON.stringify(Habits.parse(habits)) }
      await db
        .insertInto('shop_habits')
        .values(row)
        .onConflict((there) => there.column('only').doUpdateSet({ record: row.record }))
        .execute()
    },
  }
}

function doneFrom(row: Tables['care_done']): CareDone {
  const { id, batch, tool_id: toolId, task, day, at, who, details } = row
  try {
    return { id, batch, toolId, task, day, at, who, details: CareDetails.parse(JSON.parse(details)) }
  } catch (cause) {
    throw new Error(`Entry ${id} of the care log cannot be read back from the file of cases`, { cause })
  }
}
