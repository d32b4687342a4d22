/** The list of cases, a page of rows at a time. */
import type { Expression, ExpressionBuilder, Kysely, SqlBool } from 'kysely'
import { sql } from 'kysely'
import { CaseState } from '../../shared/case.js'
import type { CaseFilter, CaseStore, CaseSummary } from '../cases/case-store.js'
import type { ConfirmedOutcome } from '../cases/outcome.js'
import { nameKey } from '../register/name-key.js'
import type { Listed } from './listed.js'

export interface CaseTable extends Listed {
  id: string
  kind: string
  tool: string
  begun_at: string
  changed_at: string
}
interface Tables {
  bench_case: CaseTable
}
type Is = ExpressionBuilder<Tables, 'bench_case'>

export function caseListIn(file: Kysely<unknown>): Pick<CaseStore, 'list' | 'count'> {
  const db = file as Kysely<Tables>
  return { list: (filter) => listIn(db, filter), count: (filter) => countIn(db, filter) }
}

async function listIn(
  db: Kysely<Tables>,
  { most = 200, skip = 0, ...filter }: CaseFilter & { most?: number; skip?: number } = {},
): Promise<CaseSummary[]> {
  // Each state in the order of the index, then laid together: sorting them all would take every row.
  const byState = await Promise.all(
    statesOf(filter).map((state) =>
      db
        .selectFrom('bench_case')
        .selectAll()
        .where('state', '=', state)
        .where((is) => is.and(conditions(is, filter)))
        .orderBy('changed_at', 'desc')
        .orderBy('id', 'desc')
        .limit(skip + most)
        .execute(),
    ),
  )
  const later = (a: CaseTable, b: CaseTable) =>
    a.changed_at === b.changed_at ? (a.id < b.id ? 1 : -1) : a.changed_at < b.changed_at ? 1 : -1
  return byState
    .flat()
    .sort(later)
    .slice(skip, skip + most)
    .map(summaryOf)
}

async function countIn(db: Kysely<Tables>, filter: CaseFilter = {}): Promise<number> {
  const { count } = await db
    .selectFrom('bench_case')
    .select((is) => is.fn.countAll<number>().as('count'))
    .where('state', 'in', statesOf(filter))
    .where((is) => is.and(conditions(is, filter)))
    .executeTakeFirstOrThrow()
  return count
}

const statesOf = ({ open, states = CaseState.options }: CaseFilter): readonly CaseState[] =>
  states.filter((state) => open === undefined || open === (state === 'on-the-bench'))

function conditions(is: Is, { find = '', said }: CaseFilter): Expression<SqlBool>[] {
  const key = nameKey(find)
  return [
    ...(key === '' ? [] : [sql<SqlBool>`found_by like ${`%${key.replace(/[\\%_]/g, '\\$&')}%`} escape '\\'`]),
    ...(said === undefined ? [] : [is('event_count', said ? '>' : '=', 0)]),
  ]
}

function summaryOf(row: CaseTable): CaseSummary {
  const { id, kind, tool, begun_at: begunAt, changed_at: changedAt, state, words, outcome } = row
  return {
    id,
    kind,
    tool,
    begunAt,
    changedAt,
    state: CaseState.parse(state),
    words,
    outcome: outcome === null ? null : (JSON.parse(outcome) as ConfirmedOutcome),
  }
}
