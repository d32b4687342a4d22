/** Which answers of a finished exercise were the contrary of what the tool showed. Knows the hidden tool. */
import type { Desk } from './desk.js'
import type { Done } from './moves.js'
import { answerShown, isContrary } from './moves.js'

/**
 * @returns ids of this move's questions that were answered wrongly; none in levels where every answer is right, and
 *          none where both ways of seeing it come to the same answer
 */
export function wrongIn(desk: Desk, { move, before, told }: Done): string[] {
  const { steps, fixes } = desk.kind.model
  const isSure = (question: string) =>
    move.type === 'looked'
      ? steps.find(({ id }) => id === move.step)?.form === 'danger'
      : // a repair tells its own outcome, and that what hid the rest is gone; only the first can be wrong
        move.type === 'tried' && fixes.find(({ id }) => id === move.fix)?.outcome?.id !== question
  return told
    .filter(
      ({ question, answer }) =>
        answer !== 'cant-tell' &&
        !isSure(question) &&
        isContrary(desk, question) &&
        answerShown(desk, before, question) !== answer,
    )
    .map(({ question }) => question)
}
