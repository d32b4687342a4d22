/** Which answers of a finished exercise were the contrary of what the tool showed. Knows the hidden tool. */
import type { Answer } from '../../shared/situation.js'
import type { Desk } from './desk.js'
import type { Done } from './moves.js'
import { answerShown, isContrary } from './moves.js'

export interface WrongAnswer {
  readonly question: string
  /** what the tool showed; undefined where nobody could tell */
  readonly shown: Answer | undefined
}

/**
 * @returns this move's wrong answers; none in levels where every answer is right, and none where both ways of seeing
 *          it come to the same answer
 */
export function wrongIn(desk: Desk, { move, before, told }: Done): WrongAnswer[] {
  const { steps, fixes } = desk.kind.model
  const isSure = (question: string) =>
    move.type === 'looked'
      ? steps.find(({ id }) => id === move.step)?.form === 'danger'
      : // a repair tells its own outcome, and that what hid the rest is gone; only the first can be wrong
        move.type === 'tried' && fixes.find(({ id }) => id === move.fix)?.outcome?.id !== question
  return told.flatMap(({ question, answer }) => {
    if (answer === 'cant-tell' || isSure(question) || !isContrary(desk, question)) return []
    const shown = answerShown(desk, before, question)
    return shown === answer ? [] : { question, shown }
  })
}
