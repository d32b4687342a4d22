/** How long the fixes of a case took, as somebody told. Pure. */
import type { BenchCase } from '../../shared/case.js'
import { struckOut } from './struck-out.js'

/** The last word for each fix that stands as tried. */
export function minutesTold({
  events,
}: Pick<BenchCase, 'events'>): readonly { readonly fix: string; readonly minutes: number }[] {
  const struck = struckOut(events)
  const tried = new Set(
    events.flatMap((event, place) => (event.type === 'tried' && !struck.fix(place) ? [event.fix] : [])),
  )
  const told = new Map(events.flatMap((event) => (event.type === 'took' ? [[event.fix, event.minutes]] : [])))
  return [...told].flatMap(([fix, minutes]) => (tried.has(fix) ? [{ fix, minutes }] : []))
}
