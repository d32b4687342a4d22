import { lookupOf } from '../../../shared/rulebook-index.js'
import type { OnBench } from '../../bench/on-bench.js'
import { answerWords } from '../layout/words.js'

/** An earlier answer that the rest does not fit: looked at once more before a fix is begun or the work ends. */
export interface SecondLook {
  /** "Earlier you said “No”: Is the drive tip worn?" */
  readonly words: string
  /** where that answer is changed, or said again */
  readonly href: string
}

/** Null where every answer fits, or none could change what is done. */
export function secondLook({ knowledge, bench, assessment, situation }: OnBench): SecondLook | null {
  const { doubt } = assessment
  const question = doubt ? lookupOf(knowledge).questions.get(doubt.question)?.question : undefined
  const said = question && situation.answers[question.id]
  if (!question || said === undefined) return null
  return {
    words: `Earlier you said “${answerWords(said, question.unit)}”: ${question.text}`,
    href: `/cases/${bench.id}/answers/${question.id}`,
  }
}
