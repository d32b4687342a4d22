/** A learner's or a class's results out of what was kept of each exercise. */
import type { Knowledge } from '../../shared/knowledge.js'
import type { ExerciseSummary, Outcome } from '../../shared/practice.js'
import type { Result } from './result.js'
import { resultFrom } from './result.js'

/**
 * What has ended, as results; exercises that go on are left out. The order is kept.
 *
 * @param moved of today's rulebook: what was renamed since is named by its new id
 */
export function resultsOf(summaries: readonly ExerciseSummary[], moved: Knowledge['moved'] = {}): Result[] {
  return summaries.flatMap((it) =>
    it.outcome === null
      ? []
      : [
          resultFrom(
            {
              ...it,
              kind: moved['kinds']?.[it.kind] ?? it.kind,
              level: moved['levels']?.[it.level] ?? it.level,
            },
            outcomeOfToday(it.outcome, moved),
          ),
        ],
  )
}

/** Two causes that became one count as one, and their points are added up. */
function outcomeOfToday(outcome: Outcome, moved: Knowledge['moved']): Outcome {
  if (Object.keys(moved).length === 0) return outcome
  const cause = (id: string): string => moved['causes']?.[id] ?? id
  const { causes, suspects, slips, spread } = outcome
  const points: Record<string, number> = {}
  for (const [id, given] of Object.entries(spread?.points ?? {}))
    points[cause(id)] = (points[cause(id)] ?? 0) + given
  return {
    ...outcome,
    causes: [...new Set(causes.map(cause))],
    suspects: [...new Set(suspects.map(cause))],
    slips: slips.map((id) => moved['slips']?.[id] ?? id),
    ...(spread && { spread: { points, other: spread.other } }),
  }
}
