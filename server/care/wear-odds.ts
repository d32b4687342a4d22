/**
 * Care that was done or left undone, as evidence beforehand: the prior odds of a wear cause are multiplied by the ratio
 * of Weibull hazards h(t)/h(t_ref) = (t/t_ref)^(β−1), t the days since the wear began anew and t_ref the advised
 * interval. β stands in the rulebook (`resets` of a care task). Pure.
 */
import type { Care } from '../../shared/knowledge.js'
import { daysBetween } from './rhythm.js'

/** However long ago: the odds are at most so many times as high, or as low. An estimate. */
export const mostTimes = 4

export interface WearOdds {
  readonly cause: string
  readonly task: Care
  readonly days: number
  /** what the prior odds are multiplied by, from 1/`mostTimes` to `mostTimes` */
  readonly times: number
}

/** (t/t_ref)^(β−1), bounded. @param days of 0 or more @param usual advised days between, above 0 @param shape β, above 1 */
export function hazardRatio(days: number, usual: number, shape: number): number {
  const ratio = (Math.max(days, 0) / usual) ** (shape - 1)
  return Math.min(mostTimes, Math.max(1 / mostTimes, ratio))
}

/**
 * @param care   the tasks of the tool's kind
 * @param last   by task: the last day on which it was done
 * @param since  the day from which on the shop keeps a log of this tool; null where it keeps none: then what nobody
 *               logged is unknown, and says nothing
 * @param cured  by cause: the last day on which a fix of it was done and cured
 * @param today  day of the shop's calendar
 */
export function wearOdds(
  care: readonly Care[],
  last: ReadonlyMap<string, string>,
  since: string | null,
  cured: ReadonlyMap<string, string>,
  today: string,
): readonly WearOdds[] {
  return care.flatMap((task) => {
    const { everyDays } = task
    if (everyDays === undefined) return []
    return Object.entries(task.resets).flatMap(([cause, shape]): WearOdds[] => {
      const days = [last.get(task.id) ?? since, cured.get(cause)].flatMap((day) => day ?? [])
      if (days.length === 0) return []
      const age = Math.max(0, daysBetween(days.sort().at(-1)!, today))
      return [{ cause, task, days: age, times: hazardRatio(age, everyDays, shape) }]
    })
  })
}
