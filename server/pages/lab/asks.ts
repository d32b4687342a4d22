/** Every question of a kind as a line of the dry run: what is said first, what was looked for next, the rest by step. */
import type { Fix, Knowledge, Question, Step } from '../../../shared/knowledge.js'
import type { Problem } from '../../forms/answer-form.js'
import { fieldOf, textOf, textsOf } from '../../forms/answer-form.js'
import { matchingAmong } from '../layout/find-by-words.js'
import type { LabForm } from '../../forms/lab-form.js'
import { dangerStep } from '../../bench/on-bench.js'
import { answerWords, unitWords } from '../layout/words.js'

interface LabAsk {
  readonly name: string
  readonly words: string
  /** choices of a yes-no question; null for a reading */
  readonly choices:
    | readonly { readonly value: string; readonly words: string; readonly chosen: boolean }[]
    | null
  readonly reading: {
    readonly name: string
    readonly value: string
    readonly unit: string
    readonly spoken: string
    readonly cantTell: boolean
  } | null
  readonly problem: string | null
}

export interface LabAsks {
  /** how many questions are in the groups */
  readonly left: string
  readonly find: string
  readonly noMatch: boolean
  readonly said: readonly LabAsk[]
  /** danger signs that are answered no: many, and of little interest */
  readonly noDanger: readonly LabAsk[]
  readonly found: readonly LabAsk[]
  readonly groups: readonly {
    readonly heading: string
    readonly count: string
    readonly asks: readonly LabAsk[]
  }[]
}

export function labAsks(book: Knowledge, form: LabForm): LabAsks {
  const sources = [
    ...book.steps.map((step: Step) => ({ heading: step.title, questions: step.questions })),
    ...book.fixes.flatMap((fix: Fix) =>
      fix.outcome ? [{ heading: `After the fix: ${fix.name}`, questions: [fix.outcome] }] : [],
    ),
  ]
  const all = sources.flatMap(({ questions }) => questions)
  const said = all.filter(({ id }) => isSaid(id, form))
  const found = matchingAmong(all, form.find)
    .flatMap((id) => all.find((question) => question.id === id) ?? [])
    .filter((question) => !said.includes(question))
  const danger = new Set(dangerStep(book, form.kind)?.questions)
  const isQuiet = (question: Question): boolean =>
    danger.has(question) && form.situation.answers[question.id] === 'no'
  const view = (question: Question): LabAsk => askView(question, form)
  return {
    left: String(all.length - said.length - found.length),
    find: form.find,
    noMatch: form.find !== '' && matchingAmong(all, form.find).length === 0,
    said: said.filter((question) => !isQuiet(question)).map(view),
    noDanger: said.filter(isQuiet).map(view),
    found: found.map(view),
    groups: sources
      .map(({ heading, questions }) => {
        const left = questions.filter((question) => !said.includes(question) && !found.includes(question))
        return { heading, count: String(left.length), asks: left.map(view) }
      })
      .filter(({ asks }) => asks.length > 0),
  }
}

/** Said, or meant to be: a reading that cannot be used stands with what was said until it is put right. */
function isSaid(id: string, { situation, problems }: LabForm): boolean {
  return situation.answers[id] !== undefined || problems.some(({ field }) => field === fieldOf(id))
}

function askView(question: Question, { sent, situation, problems }: LabForm): LabAsk {
  const name = fieldOf(question.id)
  const answer = situation.answers[question.id]
  const problem = problems.find((it: Problem) => it.field === name)
  const chosen = answer === undefined ? textsOf(sent, name)[0] : String(answer)
  const words = question.kind === 'number' ? question.text : question.statement
  if (question.kind !== 'number') {
    const values = ['', 'yes', 'no', 'cant-tell'] as const
    const choices = values.map((value) => ({
      value,
      words: value === '' ? 'Not said' : answerWords(value),
      chosen: value === (chosen ?? ''),
    }))
    return { name, words, choices, reading: null, problem: problem?.here ?? null }
  }
  const unit = question.unit && unitWords(question.unit)
  return {
    name,
    words,
    choices: null,
    reading: {
      name: `n-${question.id}`,
      value: textOf(sent, `n-${question.id}`),
      unit: unit?.short ?? '',
      spoken: unit?.long ?? '',
      cantTell: answer === 'cant-tell' || textsOf(sent, name).includes('cant-tell'),
    },
    problem: problem?.here ?? null,
  }
}
