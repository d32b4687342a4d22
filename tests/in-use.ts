/** A rulebook as a shop runs on it, worked out once for all test files of a worker. */
import type { Knowledge } from '../shared/knowledge.js'
import type { RulebookInUse } from '../server/rulebook/live-rulebook.js'
import { rulebookInUse } from '../server/rulebook/live-rulebook.js'

/** When a shop of the tests opened, and took its rulebook over. */
export const OPENED = '2026-03-02T09:00:00.000Z'

const known = new WeakMap<Knowledge, Promise<RulebookInUse>>()

/** The same for the same knowledge, with all that was remembered of it since. */
export function inUseOf(knowledge: Knowledge): Promise<RulebookInUse> {
  const found = known.get(knowledge) ?? rulebookInUse(knowledge, new Date(OPENED))
  known.set(knowledge, found)
  return found
}
