/** Making moves of an exercise: looked at before they are stored, stored one by one, the outcome kept at the end. */
import type { PracticeMove } from '../../shared/practice.js'
import { StaleForm } from '../errors.js'
import { makeMove } from '../practice/moves.js'
import { outcomeOf } from '../practice/outcome.js'
import { canSpread, playOn } from '../practice/played.js'
import { thinkAhead } from '../remembered/exercises.js'
import { keepIfOver } from './keep-outcome.js'
import type { PracticeBench } from './practice-bench.js'
import { benchOf, practiceBench } from './practice-bench.js'

/** What came of moves that were sent, with the bench as it is now. */
export type Made = { readonly bench: PracticeBench } & (
  | { readonly is: 'made' }
  /** it cannot be done; nothing of it was stored */
  | { readonly is: 'refused'; readonly because: string }
  /** it came from an older page; nothing was stored */
  | { readonly is: 'older'; readonly move: PracticeMove }
)

/** Before the first repair, and before sending in, the learner says what they think it is; if it can be done at all. */
export async function pointsFirst(
  { exercise, played }: PracticeBench,
  move: PracticeMove,
  seen: number,
): Promise<boolean> {
  const asks = move.type === 'tried' || (move.type === 'ended' && move.way === 'send-in')
  if (!asks || seen !== exercise.moves.length || played.now.spread !== undefined || !canSpread(played))
    return false
  return (await makeMove(played.desk, played.now, move)).refused === undefined
}

/**
 * Makes moves one after the other. What was sent twice is made once; what comes from an older page, or cannot be
 * done, is not stored.
 *
 * @param moves at least one
 * @param seen  how many moves the sender had seen
 */
export async function makeMoves(
  bench: PracticeBench,
  moves: readonly [PracticeMove, ...PracticeMove[]],
  seen: number,
): Promise<Made> {
  const there = bench.exercise.moves.slice(seen, seen + moves.length)
  // the same form once more, by a double press or by going back: it was done, so show what came of it
  if (there.length > 0 && isSame(there, moves)) return { is: 'made', bench }
  if (seen !== bench.exercise.moves.length) return older(bench, moves)
  let now = bench
  for (const [k, move] of moves.entries()) {
    const { refused } = await makeMove(now.played.desk, now.played.now, move)
    if (refused !== undefined) return { is: 'refused', bench: now, because: refused }
    const { hand } = now
    try {
      const { exercise } = now.played
      const ahead = await playOn(now.played, { ...exercise, moves: [...exercise.moves, move] })
      const stored = await hand.register.makeMove(
        now.exercise.id,
        move,
        hand.now().toISOString(),
        seen + k,
        outcomeOf(ahead, null),
      )
      now = await benchOf(hand, stored)
    } catch (error) {
      if (!(error instanceof StaleForm)) throw error
      const fresh = await practiceBench(hand, now.exercise.id)
      return isSame(fresh.exercise.moves.slice(seen, seen + moves.length), moves)
        ? { is: 'made', bench: fresh }
        : older(fresh, moves)
    }
  }
  if (now.played.now.over === undefined) thinkSoon(now)
  else await keepIfOver(now)
  return { is: 'made', bench: now }
}

/** The last of them is offered once more. */
const older = (bench: PracticeBench, moves: readonly [PracticeMove, ...PracticeMove[]]): Made => ({
  is: 'older',
  bench,
  move: moves.at(-1) ?? moves[0],
})

/** Milliseconds in which the page that follows a move is asked for: it comes before any thinking about the move. */
const pageFirst = 400

const thinkSoon = ({ hand, played }: PracticeBench): void => {
  setTimeout(() => void thinkAhead(hand.prepared, played, hand.register, hand.doSum), pageFirst).unref()
}

/** Both have come through the same shape, which puts the fields in order. */
const isSame = (one: readonly PracticeMove[], other: readonly PracticeMove[]): boolean =>
  JSON.stringify(one) === JSON.stringify(other)
