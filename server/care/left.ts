/** Care that is done on no tool, although it is due. Pure. */
import type { Care } from '../../shared/knowledge.js'
import type { DueCare, Round } from './due.js'
import { overdueFrom } from './due.js'
import { daysBetween } from './rhythm.js'

export interface LeftUndone {
  readonly task: Care
  readonly tools: number
  /** the last day on which somebody did it on one of them; null where nobody ever logged it */
  readonly last: string | null
}

/** Tasks that are late by a whole round more than overdue on every tool that needs them. */
export function leftUndone({ care, today }: Round): readonly LeftUndone[] {
  const byTask = new Map<string, DueCare[]>()
  for (const it of care) byTask.set(it.task.id, [...(byTask.get(it.task.id) ?? []), it])
  return [...byTask.values()].flatMap((jobs) => {
    const left = jobs.every(
      ({ due, everyDays }) => everyDays > 0 && daysBetween(due, today) >= everyDays + overdueFrom(everyDays),
    )
    const last =
      jobs
        .flatMap(({ last }) => last ?? [])
        .sort()
        .at(-1) ?? null
    return left ? [{ task: jobs[0]!.task, tools: jobs.length, last }] : []
  })
}
