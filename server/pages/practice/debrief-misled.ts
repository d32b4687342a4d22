/** Every answer that spoke against what was there, and why it came all the same. */
import type { LookedBack } from '../../practice/look-back.js'
import type { Misled } from '../../practice/misled.js'
import type { Played } from '../../practice/played.js'
import type { Desk } from '../../practice/desk.js'
import { ofTen } from './debrief-words.js'
import { wrongWords } from './debrief-steps.js'
import { causeName, lowered, questionOf } from './move-words.js'

export interface MisledView {
  /** "2 answers pointed the wrong way" */
  readonly title: string
  /** how often answers are wrong at this level; empty where every answer is right */
  readonly says: string
  readonly answers: readonly { readonly words: string; readonly why: string }[]
}

export function misledOf({ desk }: Played, { misled }: LookedBack): MisledView {
  const count = misled.length
  return {
    title:
      count === 0
        ? 'No answer pointed the wrong way'
        : count === 1
          ? 'One answer pointed the wrong way'
          : `${count} answers pointed the wrong way`,
    says:
      desk.wrongAnswers === 0
        ? ''
        : `About one answer in ${Math.floor(1 / desk.wrongAnswers)} is wrong at this level, danger questions never.`,
    answers: misled.map((it) => ({
      words: `${questionOf(desk, it.question)?.text ?? ''} ${saidOf(desk, it)}`.trim(),
      why: it.wrong ? wrongWords(desk, it.wrong) : whyOf(desk, it),
    })),
  }
}

const saidOf = ({ kind: { model } }: Desk, { finding, present }: Misled): string => {
  const says = lowered(model.findings[model.findingIndex.get(finding)!]!.says)
  return present ? `Yes: ${says}.` : `Not so: ${says}.`
}

function whyOf({ book, kind: { model } }: Desk, { against, chance, present }: Misled): string {
  const cause = lowered(causeName(book.knowledge, model.kind.id, against ?? ''))
  const how = present ? 'shows' : 'does not show'
  return `It spoke against ${cause}, and was right all the same: in ${ofTen(chance)} tools with it that ${how}.`
}
