/** What is known, what was met and is not yet, and how much comes back when. */
import { bookOf } from '../../../shared/book-of-kind.js'
import type { Knowledge } from '../../../shared/knowledge.js'
import { comingBack } from '../../practice/coming-back.js'
import type { CauseMastery } from '../../practice/mastery.js'
import { masteryOf } from '../../practice/mastery.js'
import type { Result } from '../../practice/result.js'
import { agoWords, daysUntil, longWords } from './day-words.js'
import { kindName } from './found-words.js'
import { causeName } from './move-words.js'

export interface KnownList {
  readonly kind: string
  readonly count: string
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
    const known = its.filter(({ mastered }) => mastered)
    return {
      kind: kindName(knowledge, kind),
      count: `${known.length} known, ${its.length - known.length} not yet`,
      known: known.map(row),
      met: its.filter(({ mastered }) => !mastered).map(row),
      unmet: unmet.length === 0 ? '' : `${unmet.length} more that this kind of tool can have never came yet.`,
    }
  })
}

function saysOf({ times, found, history }: CauseMastery, now: string): string {
  const last = history.at(-1)!
  const when = agoWords(last.at, now)
  if (times === 1) return `${last.found ? 'found' : 'missed'} ${when}`
  const all = times === 2 ? 'both times' : `all ${times} times`
  const often =
    found === 0 ? `missed ${all}` : found === times ? `found ${all}` : `found ${found} of ${times} times`
  return `${often}, last ${when}${last.found || found === 0 ? '' : ', and missed then'}`
}

export interface ComingList {
  readonly says: string
  readonly rows: readonly {
    readonly when: string
    readonly count: number
    /** drawn as strokes, five to a path */
    readonly tally: readonly string[]
  }[]
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
  const all = comingBack(results, now).map((it) => ({ ...it, days: daysUntil(it.due, now) }))
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

/** Strokes in fives, as on a wall: a path for each hand, in a field of 30 by 22. */
function tallyOf(count: number): string[] {
  const hands = Math.ceil(count / 5)
  return Array.from({ length: hands }, (_, hand) => {
    const strokes = Math.min(5, count - hand * 5)
    const upright = Array.from({ length: Math.min(4, strokes) }, (_, k) => `M${5 + k * 6} 2v18`).join('')
    return strokes === 5 ? `${upright}M1 18L27 4` : upright
  })
}

/** Causes of all kinds. */
export const knownCount = (
  lists: readonly KnownList[],
): { readonly known: number; readonly met: number } => ({
  known: lists.reduce((sum, it) => sum + it.known.length, 0),
  met: lists.reduce((sum, it) => sum + it.met.length, 0),
})
