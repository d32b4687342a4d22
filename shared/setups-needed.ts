import { onceFor } from './once-for.js'
import type { Setup } from './knowledge.js'

/**
 * These set-ups and all that they need, however deep, in rulebook order, which is the order of work. Unknown ids are
 * passed over; set-ups that need each other in a circle, which only a rulebook with a mistake has, come once.
 */
export function setupsNeeded(all: readonly Setup[], ids: readonly string[]): Setup[] {
  const known = byId(all)
  const needed = new Set(ids)
  // A set grows while it is walked, so the needs of needs are reached too.
  for (const id of needed) for (const need of known.get(id)?.needs ?? []) needed.add(need)
  return all.filter(({ id }) => needed.has(id))
}

const byId = onceFor((all: readonly Setup[]) => new Map(all.map((setup) => [setup.id, setup])))

/** Plug out, or locked: what every other set-up that cannot stand under power builds on. */
export const cutsPower = ({ withPower, needs }: Pick<Setup, 'withPower' | 'needs'>): boolean =>
  !withPower && needs.length === 0
