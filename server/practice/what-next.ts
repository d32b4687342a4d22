/** What to practise next: what is about to be forgotten first, then what has never come, the commonest first. */
import type { Knowledge, Level } from '../../shared/knowledge.js'
import { bookOf } from '../../shared/book-of-kind.js'
import type { Item } from './items.js'
import { inTime, itemsOf } from './items.js'
import { causesOf, kindsOf } from './level-book.js'
import type { Memory } from './recall.js'
import { memoryOf } from './recall.js'
import type { Result } from './result.js'

export interface Suggestion {
  readonly kind: string
  readonly level: string
  /** the cause that the next tool is to have; not for the learner's eyes */
  readonly about: string
  /** why: due again, mixed up before and due again, never come yet, or nothing is due and this is weakest */
  readonly why: 'due' | 'mixed-up' | 'new' | 'weakest'
  /** chance that it would be found now, in [0, 1]; undefined for what is new */
  readonly recall: number | undefined
}

const plain = { hideSuspects: false, hidePrices: false }

/**
 * @param results one learner's, any order
 * @param now     ISO 8601, UTC
 * @param kinds   those that the learner wants, of the level's; all of the level's unless told
 * @throws RangeError where the level has none of these kinds
 */
export function whatNext(
  knowledge: Knowledge,
  level: Level,
  results: readonly Result[],
  now: string,
  kinds: readonly string[] = kindsOf(knowledge, level),
): Suggestion {
  const may = new Map(
    kindsOf(knowledge, level)
      .filter((id) => kinds.includes(id))
      .map((kind) => [kind, causesOf(knowledge, level, kind, plain)] as const),
  )
  const latest = inTime(results).at(-1)
  const isLatest = (kind: string, cause: string) => latest?.kind === kind && latest.causes.includes(cause)
  const known = itemsOf(results)
    .filter(({ kind, causes }) => causes.every((id) => may.get(kind)?.includes(id)))
    .map((item) => ({ item, memory: memoryOf(item.reviews) }))
    .map(({ item, memory }) => ({
      item,
      memory,
      recall: memory.recallAt(now),
      about: aboutOf(item, results),
    }))
    .filter(({ item, about }) => !isLatest(item.kind, about))
    .sort((a, b) => a.recall - b.recall)
  const suggested = (it: (typeof known)[number], why: Suggestion['why']): Suggestion => ({
    kind: it.item.kind,
    level: level.id,
    about: it.about,
    why,
    recall: it.recall,
  })
  const due = known.find(({ memory }) => isDue(memory, now))
  if (due) return suggested(due, due.item.causes.length === 2 ? 'mixed-up' : 'due')
  const met = new Set(itemsOf(results).map(({ kind, causes }) => [kind, ...causes].join('|')))
  const [fresh] = [...may]
    .flatMap(([kind, causes]) =>
      causes.map((cause) => ({ kind, cause, usual: usualOf(knowledge, kind, cause) })),
    )
    .filter(({ kind, cause }) => !met.has(`${kind}|${cause}`))
    .sort((a, b) => b.usual - a.usual)
  if (fresh) return { kind: fresh.kind, level: level.id, about: fresh.cause, why: 'new', recall: undefined }
  if (known[0]) return suggested(known[0], 'weakest')
  throw new RangeError(`the level ${level.id} has no other cause for ${kinds.join(', ') || 'no kind at all'}`)
}

const isDue = ({ due }: Memory, now: string): boolean => due <= now

/** Of how many troubled tools in 1000 of a shop it is the main cause of a tool of this kind. */
const usualOf = (knowledge: Knowledge, kind: string, cause: string): number => {
  const { kinds, causes } = bookOf(knowledge, kind)
  return (causes.find(({ id }) => id === cause)!.shares[kind]! * (kinds[0]!.usual ?? 1000)) / 1000
}

/** Of a pair the one that came less often: the other is known better. */
function aboutOf({ kind, causes }: Item, results: readonly Result[]): string {
  const times = (cause: string) =>
    results.filter((it) => it.kind === kind && it.causes.includes(cause)).length
  return [...causes].sort((a, b) => times(a) - times(b))[0]!
}
