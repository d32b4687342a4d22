/** Cards as they were compiled: one takes seconds, so those seen lately are kept, and other requests go on meanwhile. */
import { LRUCache } from 'lru-cache'
import { setImmediate as immediately } from 'node:timers/promises'
import type { Prepared } from '../diagnosis/prepare.js'
import { kindOf } from '../diagnosis/prepare.js'
import type { Card } from '../practice/card.js'
import { compileCard } from '../practice/card.js'
import { cardShop, dangerQuestions } from '../practice/card-start.js'
import { commonestComplaints } from '../practice/card-tools.js'

/** How many cards are kept for one rulebook; one takes a few kilobytes. */
const most = 200
/** So many complaints of a kind are called common, and have figures. */
export const commonCount = 5

interface Kept {
  readonly cards: LRUCache<string, Promise<Card>>
  readonly common: Map<string, readonly string[]>
}
const ofRulebooks = new WeakMap<Prepared, Kept>()

function keptOf(prepared: Prepared): Kept {
  let kept = ofRulebooks.get(prepared)
  if (!kept) ofRulebooks.set(prepared, (kept = { cards: new LRUCache({ max: most }), common: new Map() }))
  return kept
}

/**
 * The card of a kind and a complaint. Asked for twice at a time, it is compiled once.
 *
 * @throws RangeError for an unknown kind, or a complaint that the kind does not have
 */
export function cardOf(prepared: Prepared, kind: string, complaint: string): Promise<Card> {
  const { cards } = keptOf(prepared)
  const key = `${kind} ${complaint}`
  const known = cards.get(key)
  if (known) return known
  const fresh = compileCard(kindOf(prepared, kind), complaint, cardShop, undefined, () => immediately())
  cards.set(key, fresh)
  // A failure is not remembered. The caller gets the rejection from `fresh` itself.
  fresh.catch(() => cards.delete(key))
  return fresh
}

/** The commonest complaints of a kind, commonest first. */
export function commonOf(prepared: Prepared, kind: string): readonly string[] {
  const { common } = keptOf(prepared)
  let known = common.get(kind)
  if (!known) common.set(kind, (known = commonestComplaints(kindOf(prepared, kind), commonCount)))
  return known
}

/** Questions that have no card: a yes to one of them is a danger sign, asked among the others or seen on the way. */
export function dangersOf(prepared: Prepared, kind: string): ReadonlySet<string> {
  const ofKind = kindOf(prepared, kind)
  const { model, effectOfYes } = ofKind
  const stopping = effectOfYes.flatMap(({ stops }, f) => (stops ? [model.questionOf[f]!] : []))
  return new Set([...dangerQuestions(ofKind), ...stopping])
}
