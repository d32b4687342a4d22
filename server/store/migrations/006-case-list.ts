import type { Kysely, Migration } from 'kysely'
import { CaseEvent } from '../../../shared/case.js'
import { listedAs } from '../listed.js'

/** What the list shows of a case and finds it by, beside the case, so that a page of the list reads a page of rows. */
export const caseList: Migration = {
  async up(unknown: Kysely<unknown>): Promise<void> {
    await unknown.schema
      .alterTable('bench_case')
      .addColumn('state', 'text', (column) => column.notNull().defaultTo('on-the-bench'))
      .execute()
    await unknown.schema.alterTable('bench_case').addColumn('words', 'text').execute()
    await unknown.schema.alterTable('bench_case').addColumn('outcome', 'text').execute()
    await unknown.schema
      .alterTable('bench_case')
      .addColumn('event_count', 'integer', (column) => column.notNull().defaultTo(0))
      .execute()
    await unknown.schema
      .alterTable('bench_case')
      .addColumn('found_by', 'text', (column) => column.notNull().defaultTo(''))
      .execute()
    await unknown.schema
      .createIndex('bench_case_listed')
      .on('bench_case')
      .columns(['state', 'changed_at', 'id'])
      .execute()
    await unknown.schema
      .alterTable('shop')
      .addColumn('version', 'integer', (column) => column.notNull().defaultTo(1))
      .execute()
    const db = unknown as Kysely<Before>
    for (const { id, tool } of await db.selectFrom('bench_case').select(['id', 'tool']).execute()) {
      const rows = await db
        .selectFrom('case_event')
        .select('event')
        .where('case_id', '=', id)
        .orderBy('place')
        .execute()
      await db
        .updateTable('bench_case')
        .set(listedAs({ tool, events: rows.flatMap(({ event }) => readable(event)) }))
        .where('id', '=', id)
        .execute()
    }
  },
}

interface Before {
  bench_case: { id: string; tool: string } & ReturnType<typeof listedAs>
  case_event: { case_id: string; place: number; event: string }
}

/** What cannot be read is said when the case is opened; here it is passed over. */
function readable(event: string): CaseEvent[] {
  try {
    return [CaseEvent.parse(JSON.parse(event))]
  } catch {
    return []
  }
}
