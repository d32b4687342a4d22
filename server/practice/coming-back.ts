/** When things come back: how many are due, and how many will be, without saying which. */
import { itemsOf } from './items.js'
import { memoryOf } from './recall.js'
import type { Result } from './result.js'

export interface ComingBack {
  readonly kind: string
  /** one cause, or two that were mixed up */
  readonly causes: readonly string[]
  /** ISO 8601, UTC */
  readonly due: string
  /** its time has come */
  readonly isDue: boolean
}

/**
 * Which of them it is, nobody who practises is told: the next exercise would be given away.
 *
 * @param now ISO 8601, UTC
 * @returns soonest first
 */
export function comingBack(results: readonly Result[], now: string): ComingBack[] {
  return itemsOf(results)
    .map(({ kind, causes, reviews }) => ({ kind, causes, due: memoryOf(reviews).due }))
    .map((it) => ({ ...it, isDue: it.due <= now }))
    .sort((a, b) => (a.due < b.due ? -1 : a.due > b.due ? 1 : 0))
}
