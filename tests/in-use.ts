/** A rulebook as a shop runs on it, worked out once for all test files of a worker. */
import type { Knowledge } from '../shared/knowledge.js'
import type { Reach } from '../server/diagnosis/plan/reach.js'
import { reach } from '../server/diagnosis/plan/reach.js'
import type { RulebookInUse } from '../server/rulebook/live-rulebook.js'
import { rulebookInUse } from '../server/rulebook/live-rulebook.js'

/** When a shop of the tests opened, and took its rulebook over. */
export const OPENED = '2026-03-02T09:00:00.000Z'

const known = new Map<Reach, WeakMap<Knowledge, Promise<RulebookInUse>>>()

/**
 * The same for the same knowledge, with all that was remembered of it since.
 *
 * @param far how far its plans look; as the product's do unless told
 */
export function inUseOf(knowledge: Knowledge, far = reach): Promise<RulebookInUse> {
  const sameReach = known.get(far) ?? new WeakMap<Knowledge, Promise<RulebookInUse>>()
  known.set(far, sameReach)
  const found = sameReach.get(knowledge) ?? rulebookInUse(knowledge, new Date(OPENED), { reach: far })
  sameReach.set(knowledge, found)
  return found
}
