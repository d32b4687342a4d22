import type { Kysely } from 'kysely'
import type { CareDone } from '../../shared/care.js'
import { CareDetails } from '../../shared/care.js'
import { Habits } from '../../shared/habits.js'
import type { CareLog, LastDone } from '../care/care-log.js'
import { NotFound } from '../errors.js'
import { note } from './written-rows.js'

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
  written: { about: string; about_id: string; did: string; by_person: string | null; signed_in: number }
  person: { id: string; name: string }
  shop_habits: { only: number; record: string }
}

/** The log of care of a shop. */
export function careLogIn(file: Kysely<unknown>): CareLog {
  const db = file as Kysely<Tables>
  return {
    log: (batch, done, { who, at, details = {} }) =>
      db.transaction().execute(async (within) => {
        if (done.length === 0) return
        const ids = [...new Set(done.map(({ toolId }) => toolId))]
        const there = await within.selectFrom('tool').select('id').where('id', 'in', ids).execute()
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
        const { numInsertedOrUpdatedRows } = await within
          .insertInto('care_done')
          .values(rows)
          .onConflict((there) => there.column('id').doNothing())
          .executeTakeFirst()
        if (numInsertedOrUpdatedRows !== 0n) await note(within, 'care', [{ id: batch, did: 'done' }])
      }),

    undo: (batch, at) =>
      db.transaction().execute(async (within) => {
        const { numUpdatedRows } = await within
          .updateTable('care_done')
          .set({ undone_at: at })
          .where('batch', '=', batch)
          .where('undone_at', 'is', null)
          .executeTakeFirst()
        if (numUpdatedRows !== 0n) await note(within, 'care', [{ id: batch, did: 'taken back' }])
        return Number(numUpdatedRows)
      }),

    async lastDone(toolId) {
      // From index entry to index entry: a group over the log would read every line that was ever written.
      const rows = await db
        .withRecursive('named', (within) =>
          within
            .selectFrom('care_done')
            .select((is) => is.fn.min<string | null>('task').as('task'))
            .unionAll(
              within
                .selectFrom('named')
                .where('named.task', 'is not', null)
                .select((is) =>
                  is
                    .selectFrom('care_done')
                    .whereRef('care_done.task', '>', 'named.task')
                    .select((later) => later.fn.min<string | null>('care_done.task').as('task'))
                    .as('task'),
                ),
            ),
        )
        .selectFrom(['tool', 'named'])
        .where('named.task', 'is not', null)
        .$if(toolId !== undefined, (all) => all.where('tool.id', '=', toolId ?? ''))
        .select((is) => [
          'tool.id as tool_id',
          'named.task',
          is
            .selectFrom('care_done')
            .whereRef('care_done.tool_id', '=', 'tool.id')
            .whereRef('care_done.task', '=', 'named.task')
            .where('care_done.undone_at', 'is', null)
            .select((of) => of.fn.max('care_done.day').as('day'))
            .as('day'),
        ])
        .execute()
      const last = new Map<string, Map<string, string>>()
      for (const { tool_id, task, day } of rows)
        if (task !== null && day !== null)
          last.set(tool_id, (last.get(tool_id) ?? new Map<string, string>()).set(task, day))
      return last satisfies LastDone
    },

    async history({ toolId, task, fromDay, toDay, before, most }) {
      const rows = await db
        .selectFrom('care_done')
        .selectAll('care_done')
        // whoever signed in and tapped, under the name that they have now; none once they are removed
        .select((is) =>
          is
            .selectFrom('written')
            .leftJoin('person', 'person.id', 'by_person')
            .whereRef('about_id', '=', 'batch')
            .where('about', '=', 'care')
            .where('did', '=', 'done')
            .where('signed_in', '=', 1)
            .select((of) => of.fn.coalesce('person.name', of.val('')).as('name'))
            .limit(1)
            .as('by'),
        )
        .where('undone_at', 'is', null)
        .$if(toolId !== undefined, (all) => all.where('tool_id', '=', toolId ?? ''))
        .$if(task !== undefined, (all) => all.where('task', '=', task ?? ''))
        .$if(fromDay !== undefined, (all) => all.where('day', '>=', fromDay ?? ''))
        .$if(toDay !== undefined, (all) => all.where('day', '<=', toDay ?? ''))
        .$if(before !== undefined, (all) =>
          all.where((is) =>
            is.or([
              is('care_done.at', '<', before?.at ?? ''),
              is.and([is('care_done.at', '=', before?.at ?? ''), is('care_done.id', '<', before?.id ?? '')]),
            ]),
          ),
        )
        .orderBy('care_done.at', 'desc')
        .orderBy('care_done.id', 'desc')
        .limit(most)
        .execute()
      return rows.map(({ by, who, ...row }) => doneFrom(row, who || (by === '' ? null : (by ?? ''))))
    },

    async daysDone(toolId, fromDay) {
      const rows = await db
        .selectFrom('care_done')
        .select(['task', 'day'])
        .distinct()
        .where('undone_at', 'is', null)
        .where('tool_id', '=', toolId)
        .where('day', '>=', fromDay)
        .orderBy('task')
        .orderBy('day')
        .execute()
      const days = new Map<string, string[]>()
      for (const { task, day } of rows) {
        const own = days.get(task)
        if (own) own.push(day)
        else days.set(task, [day])
      }
      return days
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

function doneFrom(row: Omit<Tables['care_done'], 'who'>, who: string | null): CareDone {
  const { id, batch, tool_id: toolId, task, day, at, details } = row
  try {
    return { id, batch, toolId, task, day, at, who, details: CareDetails.parse(JSON.parse(details)) }
  } catch (cause) {
    throw new Error(`Entry ${id} of the care log cannot be read back from the file of cases`, { cause })
  }
}
