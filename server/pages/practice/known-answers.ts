/** What a learner has been told already, beside the moves that would tell it again. */
import type { Question, Step } from '../../../shared/knowledge.js'
import type { Answer } from '../../../shared/situation.js'
import type { Desk, BenchState } from '../../practice/desk.js'
import { answerWords } from '../layout/words.js'
import { lowered, questionOf } from './move-words.js'

const isNews = (answer: Answer): boolean => answer !== 'no'

/** Answers to a step's questions: what it shows in full, how many were no. */
export function answersOf(desk: Desk, { situation }: BenchState, step: Step): string[] {
  const told = step.questions.flatMap((question) => {
    const answer = situation.answers[question.id]
    return answer === undefined ? [] : [{ question, answer }]
  })
  if (told.length === 0) return []
  const lines = told
    .filter(({ answer }) => isNews(answer))
    .map(({ question, answer }) => line(question, answer))
  const nos = told.length - lines.length
  const old = told.some(({ question }) => isOld({ situation }, question.id)) ? ' Told before a repair.' : ''
  const rest =
    nos === 0 ? [] : [lines.length > 0 ? `No to ${nos} more` : nos === 1 ? 'No' : `No to all ${nos}`]
  const open = step.questions.length - told.length
  const unasked = open > 0 && step.questions.length > 1 ? [`${open} not asked yet`] : []
  return [
    ...lines,
    `${[...rest, ...unasked].join(', ')}${rest.length + unasked.length > 0 ? '.' : ''}${old}`.trim(),
  ].filter(Boolean)
}

export function onlyAnswer(desk: Desk, { situation }: BenchState, id: string): string[] {
  const answer = situation.answers[id]
  if (answer === undefined) return []
  const words = answerWords(answer, questionOf(desk, id)?.unit)
  return [isOld({ situation }, id) ? `${words}, before a repair` : words]
}

/** "Yes: it hums and nothing moves". */
export const line = (question: Question, answer: Answer): string =>
  `${answerWords(answer, question.unit)}: ${lowered(question.statement)}`

/** Told before a repair that was tried since: it may be otherwise now. */
const isOld = ({ situation }: Pick<BenchState, 'situation'>, id: string): boolean =>
  (situation.answeredAfter[id] ?? 0) < situation.fixesTried.length
