/** What a case came to: what came back from the service, and which cause somebody confirmed. Pure. */
import type { BenchCase, CaseEvent } from '../../shared/case.js'
import { CameBack } from '../../shared/case.js'

/** A cause that somebody saw, and who. */
export interface ConfirmedOutcome {
  readonly cause: string
  readonly by: 'bench' | 'service'
}

type Events = Pick<BenchCase, 'events'>

/**
 * The one place that says which cause of a case is confirmed; null where none is, and then the case updates nothing.
 *
 * Confirmed is a cause that was named when the case was finished, or by the service when the tool came back. A service
 * that found something else in words confirms none, and takes back what the bench had named; one that says nothing
 * leaves it. A case that is opened again has its trouble back: what it is, is open.
 */
export function confirmedOutcome({ events }: Events): ConfirmedOutcome | null {
  const ending = endingOf(events)
  if (!ending) return null
  const back = returnOf({ events })
  if (back?.cause !== undefined) return { cause: back.cause, by: 'service' }
  if (back?.found) return null
  return ending.cause === undefined ? null : { cause: ending.cause, by: 'bench' }
}

/** What was said last when it came back, unless that was a mistake or the case was opened or finished again since. */
export function returnOf({ events }: Events): CameBack | null {
  const last = events.findLast(({ type }) => afterTheBox.has(type))
  return last?.type === 'came-back' ? CameBack.strip().parse(last) : null
}

/** The most that a service may spend without a call, in minor units; null where nobody said, or took it back. */
export function quoteLimitOf({ events }: Events): number | null {
  const last = events.findLast((event) => event.type === 'quote-limit')
  return last?.type === 'quote-limit' ? last.amount : null
}

/** Days that it was away, by its two dates; 0 where it came back the same day. */
export function daysAway({ left, back }: Pick<CameBack, 'left' | 'back'>): number {
  return Math.round((Date.parse(back) - Date.parse(left)) / 86_400_000)
}

const afterTheBox: ReadonlySet<CaseEvent['type']> = new Set([
  'finished',
  'reopened',
  'came-back',
  'still-away',
])

/** The event that ended the work at the bench, while the case is not open. */
function endingOf(events: readonly CaseEvent[]): Extract<CaseEvent, { type: 'finished' }> | null {
  const last = events.findLast(({ type }) => type === 'finished' || type === 'reopened')
  return last?.type === 'finished' ? last : null
}
