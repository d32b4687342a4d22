import type { Habits } from '../../../shared/habits.js'
import type { Knowledge } from '../../../shared/knowledge.js'
import type { Tool } from '../../../shared/tool.js'
import { isZone } from '../../care/rhythm.js'
import type { Problem, Sent } from '../../forms/answer-form.js'
import { textOf } from '../../forms/answer-form.js'
import type { Frame } from '../layout/frame.js'
import { plainFrame } from '../layout/frame.js'

/** How the shop goes about care: its zone, how often each task comes round, its calendar. */
export interface HabitsPage {
  readonly frame: Frame
  readonly zone: string
  readonly zones: readonly string[]
  readonly tasks: readonly {
    readonly id: string
    readonly name: string
    readonly advised: number
    readonly every: string
    readonly value: string
    readonly source: string
    readonly problem: string | null
  }[]
  /** address of the calendar, without its host; null while there is none */
  readonly calendar: string | null
  /** the same for each one who uses tools */
  readonly calendars: readonly { readonly name: string; readonly href: string }[]
  readonly kept: boolean
  readonly problems: readonly Problem[]
}

const fieldOf = (task: string): string => `every-${task}`

export function habitsPage(
  knowledge: Knowledge,
  habits: Habits,
  tools: readonly Tool[],
  sent: Sent | null = null,
  problems: readonly Problem[] = [],
  kept = false,
): HabitsPage {
  const calendar = habits.calendarKey === null ? null : `/calendar/${habits.calendarKey}.ics`
  const people = [...new Set(tools.flatMap(({ details }) => details.usedBy ?? []))].sort()
  return {
    frame: plainFrame(`${problems.length > 0 ? 'Error: ' : ''}How often`, 'tools'),
    zone: sent ? textOf(sent, 'zone') : habits.zone,
    zones: Intl.supportedValuesOf('timeZone'),
    tasks: knowledge.care.flatMap(({ id, name, every, everyDays, source }) => {
      if (everyDays === undefined) return []
      const own = habits.everyDays[id]
      const now = own === undefined ? String(everyDays) : own === null ? '0' : String(own)
      return {
        id: fieldOf(id),
        name,
        advised: everyDays,
        every,
        value: sent ? textOf(sent, fieldOf(id)) : now,
        source: knowledge.sources[source]?.title ?? source,
        problem: problems.find(({ field }) => field === fieldOf(id))?.here ?? null,
      }
    }),
    calendar,
    calendars:
      calendar === null
        ? []
        : people.map((name) => ({ name, href: `${calendar}?for=${encodeURIComponent(name)}` })),
    kept,
    problems,
  }
}

/** The habits that a form makes of those before, or every problem with it. */
export function habitsFrom(
  sent: Sent,
  before: Habits,
  knowledge: Knowledge,
):
  | { readonly ok: true; readonly habits: Habits }
  | { readonly ok: false; readonly problems: readonly Problem[] } {
  const problems: Problem[] = []
  const zone = textOf(sent, 'zone')
  if (!isZone(zone)) {
    const here = 'use a zone of the list, such as Europe/London'
    problems.push({ field: 'zone', message: `Zone: ${here}`, here })
  }
  const everyDays: Record<string, number | null> = {}
  for (const { id, name, everyDays: advised } of knowledge.care) {
    if (advised === undefined) continue
    const text = textOf(sent, fieldOf(id))
    if (!/^\d{1,3}$/.test(text) || Number(text) > 800) {
      const here = 'enter whole days, from 1 to 800; 0 where you leave it out'
      problems.push({ field: fieldOf(id), message: `${name}: ${here}`, here })
    } else if (Number(text) !== advised) everyDays[id] = Number(text) || null
  }
  return problems.length > 0 ? { ok: false, problems } : { ok: true, habits: { ...before, zone, everyDays } }
}
