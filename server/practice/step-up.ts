/** When a harder level is offered. It is never forced: who stays, stays. */
import type { Knowledge, Level } from '../../shared/knowledge.js'
import { inTime } from './items.js'
import { ratingOf } from './recall.js'
import type { Result } from './result.js'

/** Exercises of a level that have to be finished well, one after the other. */
const running = 3

/** Every cause found, and nothing that hurts. */
const finishedWell = (result: Result): boolean =>
  result.slips.length === 0 && result.causes.every((cause) => ratingOf(result, cause) >= 3)

/**
 * The next level, where the last three exercises of this one were finished well.
 *
 * @param results one learner's, any order; those of other levels count for nothing
 */
export function stepUp(knowledge: Knowledge, level: Level, results: readonly Result[]): Level | undefined {
  const last = inTime(results.filter((it) => it.level === level.id)).slice(-running)
  if (last.length < running || !last.every(finishedWell)) return undefined
  return [...knowledge.levels].sort((a, b) => a.order - b.order).find(({ order }) => order > level.order)
}
