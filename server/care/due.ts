/** What care each tool needs, and when. Pure. */
import { bookOf } from '../../shared/book-of-kind.js'
import type { Habits } from '../../shared/habits.js'
import type { Care, Knowledge } from '../../shared/knowledge.js'
import type { Tool, ToolMove } from '../../shared/tool.js'
import type { LastDone } from './care-log.js'
import type { Grid } from './rhythm.js'
import { dayIn, daysBetween, dueAfter, plusDays, rhythmOf } from './rhythm.js'
import { storageDue } from './storage.js'

export interface DueCare {
  readonly tool: Tool
  readonly task: Care
  /** days between that the shop goes by; 0 where it comes with a move and not by the calendar */
  readonly everyDays: number
  /** null where nobody logged it yet */
  readonly last: string | null
  readonly due: string
  readonly state: 'overdue' | 'due' | 'soon' | 'later'
}

/** A Monday and the first of a month and a year: weekly care falls on Mondays, monthly care on the first. */
const shopAnchor = '2024-01-01'

/** From this many days between on, care is due on a spare tool too. */
export const sparesFrom = 30
/** A yearly task keeps to the day on which it was done for this tool, not to the first of January. */
const ownDayFrom = 360

/** Running minutes of a tool for a client: common practice, no source. */
const minutesAClient = 15

/**
 * Every task of a tool that goes by the calendar or by its moves, earliest first; none while the tool is not in the shop.
 *
 * @param moves where the tool has been, oldest first
 */
export function careOf(
  knowledge: Knowledge,
  habits: Habits,
  tool: Tool,
  last: LastDone,
  moves: readonly ToolMove[],
  today: string,
): readonly DueCare[] {
  if (tool.place !== 'in-use' && tool.place !== 'spare') return []
  const added = dayIn(habits.zone, tool.addedAt)
  return bookOf(knowledge, tool.kind)
    .care.flatMap((task): DueCare[] => {
      const everyDays = everyDaysOf(task, habits)
      if (task.storage && everyDays !== null) {
        const done = last.get(tool.id)?.get(task.id) ?? null
        const due = storageDue(task.storage, tool.place, moves, habits.zone, done)
        if (due !== null)
          return [{ tool, task, everyDays: 0, last: done, due, state: stateOf(due, 0, today) }]
      }
      if (everyDays == null || (tool.place === 'spare' && everyDays < sparesFrom)) return []
      const done = last.get(tool.id)?.get(task.id) ?? null
      const from = done ?? added
      const grid: Grid = {
        rhythm: rhythmOf(everyDays),
        anchor: everyDays >= ownDayFrom ? from : shopAnchor,
        zone: habits.zone,
      }
      const due = earlier(dueAfter(grid, from), byHours(task, tool, from))
      return [{ tool, task, everyDays, last: done, due, state: stateOf(due, everyDays, today) }]
    })
    .sort((a, b) => (a.due < b.due ? -1 : a.due > b.due ? 1 : a.task.order - b.task.order))
}

/** Days between that the shop goes by: its own, else the advised ones; null where it leaves the task out, undefined for none. */
export const everyDaysOf = (
  task: Pick<Care, 'id' | 'everyDays'>,
  { everyDays }: Pick<Habits, 'everyDays'>,
): number | null | undefined => (everyDays[task.id] === undefined ? task.everyDays : everyDays[task.id])

/** When the running hours are up, by clients a day; null where nobody said how many. */
function byHours({ everyHours }: Care, { details: { clientsADay } }: Tool, from: string): string | null {
  if (everyHours === undefined || !clientsADay) return null
  const days = Math.max(1, Math.floor((everyHours * 60) / (clientsADay * minutesAClient)))
  return days > 3650 ? null : plusDays(from, days)
}

const earlier = (a: string, b: string | null): string => (b !== null && b < a ? b : a)

/** Late by so many days it is overdue: a quarter of the round; three at the least, for shops that close for two. */
export const overdueFrom = (everyDays: number): number => Math.max(3, everyDays / 4)

/** Soon: within a fifth, a week at most. */
function stateOf(due: string, everyDays: number, today: string): DueCare['state'] {
  const late = daysBetween(due, today)
  if (late >= overdueFrom(everyDays)) return 'overdue'
  if (late >= 0) return 'due'
  return -late <= Math.min(7, everyDays / 5) ? 'soon' : 'later'
}

export interface Round {
  readonly today: string
  /** every tool's, earliest first */
  readonly care: readonly DueCare[]
}

/** The care of all tools as of `now`. @param now ISO 8601 instant, UTC */
export function roundOf(
  knowledge: Knowledge,
  habits: Habits,
  tools: readonly Tool[],
  last: LastDone,
  moves: ReadonlyMap<string, readonly ToolMove[]>,
  now: string,
): Round {
  const today = dayIn(habits.zone, now)
  const care = tools.flatMap((tool) => careOf(knowledge, habits, tool, last, moves.get(tool.id) ?? [], today))
  return { today, care }
}
