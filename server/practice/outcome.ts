import type { ExerciseOutcome } from '../../shared/practice.js'
import type { Debrief } from './debrief.js'
import type { Played } from './played.js'
import { resultOf } from './result.js'
import { shownIn } from './skills.js'

/** What is kept of an exercise when it ends; undefined while it goes on. The score comes with its debrief. */
export function outcomeOf(played: Played, debrief: Debrief | null): ExerciseOutcome | undefined {
  const result = resultOf(played)
  if (!result) return undefined
  const { over, mended, causes, slips, spread } = result
  return {
    over,
    mended,
    causes: [...causes],
    suspects: played.desk.kind.model.causes.map(({ id }) => id),
    slips: [...slips],
    ...(spread && { spread }),
    shown: shownIn(played),
    score: debrief?.score ?? null,
    lostMinutes: debrief ? debrief.losses / played.desk.shop.rate : null,
  }
}
