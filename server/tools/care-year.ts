/** A tool's last twelve months of care: what was done, and what was missed. */
import { bookOf } from '../../shared/book-of-kind.js'
import type { Tool, ToolMove } from '../../shared/tool.js'
import { everyDaysOf, sparesFrom } from '../care/due.js'
import { missedDays } from '../care/missed.js'
import { dayIn, plusDays } from '../care/rhythm.js'
import type { AtHand } from '../wiring/deps.js'

interface CareMonth {
  readonly done: number
  readonly missed: number
}
/** By month, such as 2026-03. */
export type CareYear = ReadonlyMap<string, CareMonth>

/** @param moves where the tool has been, oldest first @param today day of the shop's calendar */
export async function careYear(
  { knowledge, care, habits }: Pick<AtHand, 'knowledge' | 'care' | 'habits'>,
  tool: Tool,
  moves: readonly ToolMove[],
  today: string,
): Promise<CareYear> {
  const { zone } = habits.record
  const added = dayIn(zone, tool.addedAt)
  const aYearAgo = `${plusDays(today, -335).slice(0, 7)}-01`
  const from = added > aYearAgo ? added : aYearAgo
  const done = await care.daysDone(tool.id, from)
  const placeOn = placesByDay(moves, zone)
  // a shop that logs nothing of a tool keeps no log of it
  const missed =
    done.size === 0
      ? []
      : bookOf(knowledge, tool.kind).care.flatMap((task) => {
          const every = everyDaysOf(task, habits.record)
          if (every == null) return []
          return missedDays(every, done.get(task.id) ?? [], { from, today }, (day) => {
            const place = placeOn(day)
            return place === 'in-use' || (place === 'spare' && every >= sparesFrom)
          })
        })
  const months = new Map<string, { done: number; missed: number }>()
  const count = (day: string, what: keyof CareMonth) => {
    const month = months.get(day.slice(0, 7)) ?? { done: 0, missed: 0 }
    month[what]++
    months.set(day.slice(0, 7), month)
  }
  for (const days of done.values()) for (const day of days) count(day, 'done')
  for (const day of missed) count(day, 'missed')
  return months
}

/** Where it was on a day: what was said last by the end of it. */
function placesByDay(
  moves: readonly ToolMove[],
  zone: string,
): (day: string) => ToolMove['place'] | undefined {
  const said = moves.map(({ place, at }) => ({ place, day: dayIn(zone, at) }))
  return (day) => said.findLast((move) => move.day <= day)?.place
}
