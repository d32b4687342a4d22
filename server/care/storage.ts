/** Care of a tool that is laid by, or comes back into use. Pure. */
import type { Care } from '../../shared/knowledge.js'
import type { ToolMove, ToolPlace } from '../../shared/tool.js'
import { dayIn, daysBetween, plusDays } from './rhythm.js'

/** A tool that rested less long needs no care for having rested: "a month or more" of `rules/care/`. */
const restedFrom = 30

/**
 * The day on which storage care is due; null where none is.
 *
 * @param moves where the tool has been, oldest first
 * @param done  the day on which it was done last
 */
export function storageDue(
  { wakeDays }: NonNullable<Care['storage']>,
  place: ToolPlace,
  moves: readonly ToolMove[],
  zone: string,
  done: string | null,
): string | null {
  const [before, move] = [moves.at(-2), moves.at(-1)]
  if (!move || move.place !== place) return null
  const moved = dayIn(zone, move.at)
  const since = done !== null && done >= moved
  if (place === 'spare') {
    // what was put on the list as a spare was laid by before anybody kept a log
    if (before && !since) return moved
    return wakeDays === undefined ? null : plusDays(since ? done : moved, wakeDays)
  }
  if (place !== 'in-use' || !before || before.place === 'in-use' || since) return null
  return daysBetween(dayIn(zone, before.at), moved) >= restedFrom ? moved : null
}
