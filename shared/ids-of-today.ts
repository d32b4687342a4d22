import type { z } from 'zod'
import type { Knowledge } from './knowledge.js'
import { withIds } from './named-ids.js'

export type Moved = Knowledge['moved']

/** Something stored as today's rulebook reads it: what was renamed since is named by its new id. */
export function withIdsOfToday<Stored>(schema: z.ZodType, stored: Stored, moved: Moved): Stored {
  if (Object.keys(moved).length === 0) return stored
  return withIds(schema, stored, ({ list, id }) =>
    today(moved, list === 'steps-or-fixes' ? ['steps', 'fixes'] : [list], id),
  )
}

/**
 * Follows renames of renames; a ring of them ends where it began.
 *
 * @param folders keys of `rules/moved.json`: the folders, and `questions` for the questions inside steps and fixes
 */
export function today(moved: Moved, folders: readonly string[], id: string): string {
  const been = new Set<string>()
  let now = id
  while (!been.has(now)) {
    been.add(now)
    const at = now
    now = folders.map((folder) => moved[folder]?.[at]).find((next) => next !== undefined) ?? at
  }
  return now
}
