/** Cards as they were compiled: one takes seconds, so those seen lately are kept, and other requests go on meanwhile. */
import { onceFor, onceForEach } from '../../shared/once-for.js'
import type { Prepared } from '../diagnosis/prepare.js'
import { kindOf } from '../diagnosis/prepare.js'
import type { Card } from '../practice/card.js'
import { dangerQuestions } from '../practice/card-start.js'
import { commonestComplaints } from '../practice/card-tools.js'
import type { DoSum } from './heavy-sums.js'
import { rememberLately } from './lately.js'
import { onThisThread } from './side-thread.js'

/** How many cards are kept for one rulebook; one takes a few kilobytes. */
const most = 200
/** So many complaints of a kind are called common, and have figures. */
const commonCount = 5

const cards = onceFor((_: Prepared) => rememberLately<Card>(most))
const common = onceForEach<Prepared, readonly string[]>()

/**
 * The card of a kind and a complaint. Asked for twice at a time, it is compiled once.
 *
 * @param doSum on which thread; this one unless told
 * @throws RangeError for an unknown kind, or a complaint that the kind does not have
 */
export function cardOf(
  prepared: Prepared,
  kind: string,
  complaint: string,
  doSum: DoSum = onThisThread,
): Promise<Card> {
  return cards(prepared)(`${kind} ${complaint}`, () => doSum(prepared, 'card', { kind, complaint }))
}

/** The commonest complaints of a kind, commonest first. */
export function commonOf(prepared: Prepared, kind: string): readonly string[] {
  return common(prepared, kind, () => commonestComplaints(kindOf(prepared, kind), commonCount))
}

/** Questions that have no card: a yes to one of them is a danger sign, asked among the others or seen on the way. */
export function dangersOf(prepared: Prepared, kind: string): ReadonlySet<string> {
  const ofKind = kindOf(prepared, kind)
  const { model, effectOfYes } = ofKind
  const stopping = effectOfYes.flatMap(({ stops }, f) => (stops ? [model.questionOf[f]!] : []))
  return new Set([...dangerQuestions(ofKind), ...stopping])
}
