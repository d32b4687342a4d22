import type { Round } from '../care/due.js'
import { roundOf } from '../care/due.js'
import type { AtHand } from '../wiring/deps.js'

/** What care the shop's tools need today. */
export async function todaysRound({ knowledge, tools, care, habits, now }: AtHand): Promise<Round> {
  const [all, last, moves] = await Promise.all([tools.list(), care.lastDone(), tools.allMoves()])
  return roundOf(knowledge, habits.record, all, last, moves, now().toISOString())
}
