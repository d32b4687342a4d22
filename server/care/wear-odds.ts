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
  /** was it ever done, as far as anybody logged? If not, `days` are those of the log, and it may be longer ago */
  readonly done: boolean
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
  const causes = new Set(care.flatMap(({ everyDays, resets }) => (everyDays ? Object.keys(resets) : [])))
  return [...causes].flatMap((cause): WearOdds[] => {
    const tasks = care.filter((task) => task.everyDays !== undefined && cause in task.resets)
    const doneOn = (task: Care): string => last.get(task.id) ?? ''
    const latest = [...tasks].sort((a, b) => (doneOn(a) < doneOn(b) ? 1 : -1))[0]!
    // where several begin its wear anew, the one that comes round soonest says what is usual
    const usual = [...tasks].sort((a, b) => a.everyDays! - b.everyDays!)[0]!
    const from = [doneOn(latest), cured.get(cause) ?? ''].sort().at(-1)!
    const done = from !== ''
    if (!done && since === null) return []
    const days = Math.max(0, daysBetween(done ? from : since!, today))
    const times = hazardRatio(days, usual.everyDays!, usual.resets[cause]!)
    // it may be longer ago than the log goes back: that can raise the odds, and never lowers them
    if (!done && times <= 1) return []
    return [{ cause, task: times > 1 || doneOn(latest) === '' ? usual : latest, days, done, times }]
  })
}
