import type { Round } from '../care/due.js'
import { roundOf } from '../care/due.js'
import type { AtHand } from '../wiring/deps.js'

/** What care the shop's tools need today; none for a tool that is boxed for service, whatever the shop said of its place. */
export async function todaysRound({ knowledge, tools, cases, care, habits, now }: AtHand): Promise<Round> {
  const [all, ties, boxed, last, moves] = await Promise.all([
    tools.list(),
    tools.ties(),
    cases.list({ states: ['boxed-for-service'] }),
    care.lastDone(),
    tools.allMoves(),
  ])
  const inBox = new Set(boxed.map(({ id }) => ties.get(id)))
  const here = all.filter(({ id }) => !inBox.has(id))
  return roundOf(knowledge, habits.record, here, last, moves, now().toISOString())
}
