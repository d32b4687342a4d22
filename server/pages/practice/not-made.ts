/** Why a move was not made, in words for the page that it came from. */
import type { PracticeMove } from '../../../shared/practice.js'
import type { Desk } from '../../practice/desk.js'
import type { NotMade } from './bench-page.js'
import { keyOf } from './move-key.js'
import { moveAsAdvice, moveWords } from './move-words.js'

export const refusedMove = (because: string): NotMade => ({
  heading: 'That was not done',
  words: because,
  again: null,
})

/** The form is from an older page than the exercise: the same is offered from here. @param made moves until now */
export function olderMove(desk: Desk, move: PracticeMove, made: number): NotMade {
  const name = move.type === 'stood' ? moveWords(desk, move) : moveAsAdvice(desk, move)
  return {
    heading: 'That came from an older page',
    words: `“${name}” was sent from a page that is no longer how things stand, so it was not done. Below is what was done last: move ${made} of this exercise.`,
    again: move.type === 'spread' ? null : { key: keyOf(move), name: `Do it now: ${name}` },
  }
}
