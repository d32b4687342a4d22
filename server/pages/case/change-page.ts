import type { Question } from '../../../shared/knowledge.js'
import type { ItemView, Problem, Sent } from '../../forms/answer-form.js'
import { itemView, textOf } from '../../forms/answer-form.js'
import type { Frame } from '../layout/frame.js'
import { caseFrame } from '../layout/frame.js'
import type { ListenView } from './listen-view.js'
import { listenView } from './listen-view.js'
import type { OnBench } from '../../bench/on-bench.js'
import { answerWords } from '../layout/words.js'

/** One answer to change or take back. */
export interface ChangePage {
  readonly frame: Frame
  readonly action: string
  readonly takeBack: string
  readonly seen: number
  readonly question: string
  readonly item: ItemView
  readonly said: string | null
  /** the microphone, where sound can answer it */
  readonly listen: ListenView | null
  /** asked only when fixes were tried: is it so now, or was it so before? */
  readonly when: readonly { readonly value: string; readonly words: string; readonly chosen: boolean }[]
  readonly problems: readonly Problem[]
}

export function changePage(
  on: OnBench,
  question: Question,
  sent: Sent | null = null,
  problems: readonly Problem[] = [],
): ChangePage {
  const { knowledge, bench, situation } = on
  const stored = situation.answers[question.id]
  const asBefore = sent === null || textOf(sent, 'when') !== 'now'
  return {
    frame: caseFrame(knowledge, bench, question.text, { error: problems.length > 0 }),
    action: `/cases/${bench.id}/answers/${question.id}`,
    takeBack: `/cases/${bench.id}/take-back`,
    seen: bench.events.length,
    question: question.id,
    item: itemView(question, stored, sent, problems),
    listen: listenView(on, [question]),
    said: stored === undefined ? null : answerWords(stored, question.unit),
    when:
      situation.fixesTried.length === 0
        ? []
        : [
            {
              value: 'as-before',
              words: 'It was so when I said it: I put my answer right',
              chosen: asBefore,
            },
            { value: 'now', words: 'It is so now, after what was tried', chosen: !asBefore },
          ],
    problems,
  }
}
