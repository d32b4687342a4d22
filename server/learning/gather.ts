/** What the shop's own cases came to, gathered once and kept until one of them changes. */
import type { BenchCase, CaseState } from '../../shared/case.js'
import { onceFor } from '../../shared/once-for.js'
import type { ShopCounts } from '../../shared/situation.js'
import type { Prepared } from '../diagnosis/prepare.js'
import { tellingOutcomes } from '../diagnosis/person.js'
import { kindOf } from '../diagnosis/prepare.js'
import { findingsFrom } from '../diagnosis/findings.js'
import { situationFrom } from '../cases/fold.js'
import { minutesTold } from '../cases/minutes-told.js'
import { confirmedOutcome } from '../cases/outcome.js'
import { struckOut } from '../cases/struck-out.js'
import type { AtHand } from '../wiring/deps.js'
import type { ConfirmedCase } from './count-case.js'
import { countCases } from './count-case.js'

const closed: readonly CaseState[] = ['running-again', 'boxed-for-service', 'set-aside']
/** The latest so many cases count: a shop's older ones tell of tools and habits that are gone. */
const mostCases = 1000

interface Gathered {
  readonly byKind: ReadonlyMap<string, ShopCounts>
  /** ids of cases that cannot be read back, and so count for nothing */
  readonly unread: readonly string[]
}
const gathered = onceFor((_: Prepared) => onceFor((_shop: object) => new Map<string, Promise<Gathered>>()))

/** The counts of a kind; undefined where nothing is confirmed, or the shop wants the rulebook alone. */
export async function learnedOf(hand: AtHand, kind: string): Promise<ShopCounts | undefined> {
  return hand.habits.record.learns ? (await countsByKind(hand)).byKind.get(kind) : undefined
}

/** Whether or not they are used. */
export async function countsByKind(hand: AtHand): Promise<Gathered> {
  const [count, [latest]] = await Promise.all([
    hand.cases.count({ states: closed }),
    hand.cases.list({ states: closed, most: 1 }),
  ])
  const key = `${count} ${latest?.id} ${latest?.changedAt}`
  const known = gathered(hand.prepared)(hand.register)
  const kept = known.get(key)
  if (kept) return kept
  const fresh = gather(hand, key)
  known.clear()
  known.set(key, fresh)
  fresh.catch(() => known.delete(key))
  return fresh
}

async function gather(hand: AtHand, key: string): Promise<Gathered> {
  const summaries = await hand.cases.list({ states: closed, most: mostCases })
  const byKind = new Map<string, ConfirmedCase[]>()
  const unread: string[] = []
  for (const { id, kind, outcome } of summaries) {
    if (!outcome || !hand.prepared.kinds.has(kind)) continue
    const read = await hand.cases.get(id).catch(() => void unread.push(id))
    const confirmed = read && (await confirmedCase(hand, read))
    if (confirmed) byKind.set(kind, [...(byKind.get(kind) ?? []), confirmed])
  }
  return { byKind: new Map([...byKind].map(([kind, cases]) => [kind, countCases(cases, key)])), unread }
}

async function confirmedCase(hand: AtHand, bench: BenchCase): Promise<ConfirmedCase | null> {
  const outcome = confirmedOutcome(bench)
  const { model, person } = kindOf(hand.prepared, bench.kind)
  if (!outcome || !model.causeIndex.has(outcome.cause)) return null
  const struck = struckOut(bench.events)
  const situation = situationFrom(bench, hand.knowledge)
  const { states } = await findingsFrom(model, situation)
  return {
    cause: outcome.cause,
    states,
    tried: bench.events.flatMap((event, place) =>
      event.type === 'tried' && !struck.fix(place)
        ? [{ fix: event.fix, cured: event.outcome === 'cured' }]
        : [],
    ),
    took: minutesTold(bench),
    told: tellingOutcomes(person, model, situation),
  }
}
