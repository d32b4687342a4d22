/** A learner's or a class's results out of what was kept of each exercise. */
import type { Moved } from '../../shared/ids-of-today.js'
import { withIdsOfToday } from '../../shared/ids-of-today.js'
import type { ExerciseSummary } from '../../shared/practice.js'
import { ExerciseHead, ExerciseOutcome } from '../../shared/practice.js'
import type { Result } from './result.js'
import { resultFrom } from './result.js'

/**
 * What has ended, as results; exercises that go on, and those in which each move was shown, are left out. The order is
 * kept.
 *
 * @param moved of today's rulebook: what was renamed since is named by its new id
 */
export function resultsOf(summaries: readonly ExerciseSummary[], moved: Moved = {}): Result[] {
  return summaries.flatMap((it) =>
    it.outcome === null || it.setting.guided === true
      ? []
      : [resultFrom(withIdsOfToday(ExerciseHead, it, moved), outcomeOfToday(it.outcome, moved))],
  )
}

/** Two causes that became one count as one. */
function outcomeOfToday(outcome: ExerciseOutcome, moved: Moved): ExerciseOutcome {
  const now = withIdsOfToday(ExerciseOutcome, outcome, moved)
  return { ...now, causes: [...new Set(now.causes)], suspects: [...new Set(now.suspects)] }
}
