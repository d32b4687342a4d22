import type { Round } from '../care/due.js'
import { roundOf } from '../care/due.js'
import type { AtHand } from '../wiring/deps.js'

/** Ids of the tools that are boxed for service by an open case, whatever the shop said of their place. */
export async function boxedTools({
  tools,
  cases,
}: Pick<AtHand, 'tools' | 'cases'>): Promise<ReadonlySet<string>> {
  const [ties, boxed] = await Promise.all([tools.ties(), cases.list({ states: ['boxed-for-service'] })])
  return new Set(boxed.flatMap(({ id }) => ties.get(id) ?? []))
}

/** What care the shop's tools need today; none for a tool in a box. */
export async function todaysRound(hand: AtHand): Promise<Round> {
  const { knowledge, tools, care, habits, now } = hand
  const [all, boxed, last, moves] = await Promise.all([
    tools.list(),
    boxedTools(hand),
    care.lastDone(),
    tools.allMoves(),
  ])
  const here = all.filter(({ id }) => !boxed.has(id))
  return roundOf(knowledge, habits.record, here, last, moves, now().toISOString())
}
