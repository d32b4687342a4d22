/** What a move told, in full: for the top of the bench, and for the list of what was done. */
import type { Answer } from '../../../shared/situation.js'
import type { Desk } from '../../practice/desk.js'
import { isMended } from '../../practice/desk.js'
import type { Done } from '../../practice/moves.js'
import { answerWords } from '../layout/words.js'
import type { Showing } from './bench-moves.js'
import { priceWords, standsWords } from './bench-moves.js'
import { line } from './known-answers.js'
import { moveWords, questionOf, toldWords } from './move-words.js'

export interface DoneView {
  readonly move: string
  /** what it came to, where it answers no question; may be empty */
  readonly outcome: string
  readonly answers: readonly { readonly asked: string; readonly answer: string }[]
  /** the answers that were no, where there are many and others that were not */
  readonly no: readonly string[]
  readonly noCount: string
  readonly price: string
}

/** What is told of a move: of a fix that ended the trouble nothing but that, for "better, though not right" is over then. */
export const toldOfMove = ({ move, after, told }: Pick<Done, 'move' | 'after' | 'told'>): Done['told'] =>
  move.type === 'tried' && isMended(after) ? [] : told

/** More than so many times no are folded away. */
const mostNo = 3

export function doneView(desk: Desk, done: Done, showing: Showing): DoneView {
  const told = toldOfMove(done)
  const nos = told.filter(({ answer }) => answer === 'no')
  const fold = nos.length > mostNo
  const shown = fold ? told.filter(({ answer }) => answer !== 'no') : told
  return {
    move: moveWords(desk, done.move),
    outcome: outcomeWords(desk, done),
    answers: [...shown]
      .sort((a, b) => weight(a.answer) - weight(b.answer))
      .map(({ question, answer }) => ({
        asked: questionOf(desk, question)?.text ?? '',
        answer: answerWords(answer, questionOf(desk, question)?.unit),
      })),
    no: fold ? nos.map(({ question }) => questionOf(desk, question)?.text ?? '') : [],
    noCount: !fold
      ? ''
      : nos.length === told.length
        ? `No to all ${nos.length}`
        : `No to the other ${nos.length}`,
    price: priceWords(showing, done),
  }
}

/** What somebody wants to hear first. */
const weight = (answer: Answer): number => (answer === 'no' ? 2 : answer === 'cant-tell' ? 1 : 0)

function outcomeWords(desk: Desk, { move, after, told }: Done): string {
  switch (move.type) {
    case 'stood':
    case 'put-back':
      return `It stands now: ${standsWords(desk, after)}.`
    case 'tried':
      return isMended(after) ? 'It runs as it should.' : 'The trouble goes on.'
    case 'looked':
      return told.length === 0 ? 'That tells nothing now.' : ''
    case 'spread':
      return 'Your suspects are down.'
    case 'dared':
      return 'Nothing that anybody notices.'
    default:
      return 'Done.'
  }
}

/** One line of the list of what was done: "Checked “Bend the cord”", its answers, its price. */
export interface LogLine {
  readonly move: string
  readonly told: readonly string[]
  readonly price: string
}

export function logLine(desk: Desk, done: Done, showing: Showing): LogLine {
  const told = toldOfMove(done)
  const outcome = outcomeWords(desk, done)
  const news = told.filter(({ answer }) => answer !== 'no')
  const nos = told.length - news.length
  return {
    move: moveWords(desk, done.move),
    told:
      told.length === 1 && done.move.type === 'looked'
        ? toldWords(desk, told)
        : [
            ...(done.move.type === 'tried' || (done.move.type === 'looked' && told.length === 0)
              ? [outcome]
              : []),
            ...news.flatMap(({ question, answer }) => {
              const asked = questionOf(desk, question)
              return asked ? [`${line(asked, answer)}.`] : []
            }),
            ...(nos > 0 ? [news.length > 0 ? `No to ${nos} more.` : `No to all ${nos}.`] : []),
          ],
    price: priceWords(showing, done),
  }
}
