/** The microphone beside the typing: which questions of a step it can answer, and what it has to know for that. */
import type { Kind, Question } from '../../../shared/knowledge.js'
import type { Figures } from '../../../shared/figures.js'
import { fieldOf, numberFieldOf } from '../../forms/answer-form.js'

export interface ListenView {
  /** for the script, as JSON: what it may expect to hear and where answers go */
  readonly settings: string
  /** hertz of the shop's mains, where strokes are held against the hertz of the plate; else null */
  readonly plate: 50 | 60 | null
  /** does somebody have to say how many strokes it should make? */
  readonly figure: boolean
  readonly inHair: boolean
}

/** Null where sound settles none of them, or the rulebook does not say how the kind sounds. */
export function listenView(
  kind: Kind,
  asked: readonly Question[],
  hertz: Figures['mains'],
): ListenView | null {
  const { sound } = kind
  const mains = hertz === '60' ? 60 : 50
  const heard = asked.flatMap((question) => (question.heard ? [{ question, heard: question.heard }] : []))
  if (!sound || heard.length === 0) return null
  const hasRate = heard.some((it) => it.heard.what === 'rate')
  return {
    settings: JSON.stringify({
      context: { drive: sound.drive, mains, between: [sound.least, sound.most], expected: null },
      questions: heard.map(({ question, heard: { what, atLeast } }) => ({
        field: question.kind === 'number' ? numberFieldOf(question.id) : fieldOf(question.id),
        what,
        atLeast: atLeast ?? null,
      })),
      all: heard.length === asked.length,
    }),
    plate: hasRate && sound.drive === 'mains' ? mains : null,
    figure: hasRate && sound.drive === 'motor',
    inHair: heard.some((it) => it.heard.what === 'droop'),
  }
}
