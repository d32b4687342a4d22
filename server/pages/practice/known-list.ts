/** What is known, what was met and is not yet, and how much comes back when. */
import { bookOf } from '../../../shared/book-of-kind.js'
import type { Knowledge } from '../../../shared/knowledge.js'
import { comingBack } from '../../practice/coming-back.js'
import type { CauseMastery } from '../../practice/mastery.js'
import { masteryOf } from '../../practice/mastery.js'
import type { Result } from '../../practice/result.js'
import { agoWords, longWords } from './day-words.js'
import { kindName } from './found-words.js'
import { causeName } from './move-words.js'

export interface KnownList {
  readonly kind: string
  readonly known: readonly KnownRow[]
  readonly met: readonly KnownRow[]
  /** causes of the kind that never came, in a sentence; empty when all have */
  readonly unmet: string
}

interface KnownRow {
  readonly name: string
  readonly says: string
}

/** By kind, in the order in which the learner met them. */
export function knownLists(
  knowledge: Knowledge,
  results: readonly Result[],
  kinds: readonly string[],
  now: string,
): KnownList[] {
  const all = masteryOf(results)
  return kinds.map((kind) => {
    const its = all.filter((it) => it.kind === kind)
    const row = (it: CauseMastery) => ({ name: causeName(knowledge, kind, it.cause), says: saysOf(it, now) })
    const unmet = bookOf(knowledge, kind).causes.filter(({ id }) => !its.some(({ cause }) => cause === id))
    return {
      kind: kindName(knowledge, kind),
      known: its.filter(({ mastered }) => mastered).map(row),
      met: its.filter(({ mastered }) => !mastered).map(row),
      unmet: unmet.length === 0 ? '' : `${unmet.length} more that this kind of tool can have never came yet.`,
    }
  })
}

function saysOf({ times, found, history }: CauseMastery, now: string): string {
  const last = history.at(-1)!
  const when = agoWords(last.at, now)
  if (times === 1) return `${last.found ? 'found' : 'missed'} ${when}`
  const often =
    found === 0
      ? `missed all ${times} times`
      : found === times
        ? `found all ${times} times`
        : `found ${found} of ${times} times`
  return `${often}, last ${when}${last.found || found === 0 ? '' : ', and missed then'}`
}

export interface ComingList {
  readonly says: string
  readonly rows: readonly { readonly when: string; readonly count: number; readonly tally: Tally }[]
}

/** Strokes in fives, as on a wall. */
export interface Tally {
  readonly path: string
  readonly width: number
}

const spans = [
  { most: 0, when: 'Due now' },
  { most: 3, when: 'In 1 to 3 days' },
  { most: 7, when: 'In 4 to 7 days' },
  { most: 30, when: 'In 8 to 30 days' },
  { most: Infinity, when: 'Later' },
] as const

/** @param now ISO 8601, UTC */
export function comingList(results: readonly Result[], now: string): ComingList {
  const all = comingBack(results, now)
  const due = all.filter(({ isDue }) => isDue).length
  const pairs = all.filter(({ causes }) => causes.length > 1).length
  const first = all[0]
  const said =
    due > 0
      ? `${due === 1 ? 'One is' : `${due} are`} due now.`
      : first
        ? `Nothing is due now. The next comes back ${first.days === 0 ? 'within a day' : `in ${longWords(first.days)}`}.`
        : ''
  // what is not due yet, but within the day, is not due now
  const spanOf = ({ isDue, days }: (typeof all)[number]) =>
    isDue ? spans[0] : spans.slice(1).find(({ most }) => Math.max(1, days) <= most)!
  return {
    says: `${said}${pairs > 0 ? ` ${pairs === 1 ? 'One of all' : `${pairs} of all`} ${pairs === 1 ? 'is a pair' : 'are pairs'} that you mixed up.` : ''}`,
    rows: spans
      .map((span) => ({ when: span.when, count: all.filter((it) => spanOf(it) === span).length }))
      .filter(({ count }) => count > 0)
      .map((row) => ({ ...row, tally: tallyOf(row.count) })),
  }
}

/** Units of the drawing: strokes 6 apart, fives 12 apart, 22 high. */
function tallyOf(count: number): Tally {
  const strokes = Array.from({ length: count }, (_, k) => {
    const hand = Math.floor(k / 5) * 36
    return k % 5 === 4 ? `M${hand} 18L${hand + 24} 4` : `M${hand + 3 + (k % 5) * 6} 2v18`
  })
  return { path: strokes.join(''), width: Math.ceil(count / 5) * 36 - 8 }
}

/** Causes of all kinds. */
export const knownCount = (
  lists: readonly KnownList[],
): { readonly known: number; readonly met: number } => ({
  known: lists.reduce((sum, it) => sum + it.known.length, 0),
  met: lists.reduce((sum, it) => sum + it.met.length, 0),
})
