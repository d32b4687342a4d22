import type { Kysely, Migration } from 'kysely'

/** The score of an exercise beside what it came to, so that those without one are found; a column of old goes. */
export const score: Migration = {
  async up(unknown: Kysely<unknown>): Promise<void> {
    await unknown.schema.alterTable('exercise_outcome').addColumn('score', 'real').execute()
    const db = unknown as Kysely<Now>
    const rows = await db.selectFrom('exercise_outcome').select(['exercise_id', 'outcome']).execute()
    for (const { exercise_id: id, outcome } of rows) {
      const { score } = JSON.parse(outcome) as { score?: number | null }
      await db
        .updateTable('exercise_outcome')
        .set({ score: score ?? null })
        .where('exercise_id', '=', id)
        .execute()
    }
    await unknown.schema.dropIndex('case_event_type').execute()
    await unknown.schema.alterTable('case_event').dropColumn('type').execute()
  },
}

interface Now {
  exercise_outcome: { exercise_id: string; outcome: string; score: number | null }
}
