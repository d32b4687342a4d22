import type { Round } from '../care/due.js'
import { roundOf } from '../care/due.js'
import type { AtHand } from '../wiring/deps.js'
import { toolsNotBoxed } from './open-cases.js'

/** What care the shop's tools need today; none for a tool in a box. */
export async function todaysRound(hand: AtHand): Promise<Round> {
  const { knowledge, tools, care, habits, now } = hand
  const [here, last, moves] = await Promise.all([toolsNotBoxed(hand), care.lastDone(), tools.allMoves()])
  return roundOf(knowledge, habits.record, here, last, moves, now().toISOString())
}
