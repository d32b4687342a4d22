/** Answers on a form: how a question is shown, and how what was sent is read. A mistake is a value, not a throw. */
import { BadRequest } from '../errors.js'
import type { Question } from '../../shared/knowledge.js'
import type { Answer } from '../../shared/situation.js'
import { answerWords, unitWords } from '../pages/layout/words.js'

/** What a form sent: text, or several texts under one name. */
export type Sent = Readonly<Record<string, unknown>>

/** Something the user must put right, tied to a field of the page. */
export interface Problem {
  /** id of the field on the page, for the link in the summary */
  readonly field: string
  readonly message: string
  /** the same beside the field, where the question stands already */
  readonly here?: string
}

/** One question as a form shows it. */
export interface ItemView {
  readonly id: string
  readonly name: string
  readonly text: string
  readonly statement: string
  readonly help: string | null
  readonly number: {
    readonly name: string
    readonly value: string
    readonly unit: string
    readonly spoken: string
  } | null
  /** the three choices of a yes-no question, for a row of three */
  readonly choices: readonly { readonly value: string; readonly words: string; readonly chosen: boolean }[]
  readonly ticked: boolean
  readonly cantTell: boolean
  readonly problem: string | null
}

export type Parsed =
  | { readonly ok: true; readonly answers: Readonly<Record<string, Answer>> }
  | { readonly ok: false; readonly problems: readonly Problem[] }

/** What a yes-no question with nothing chosen means: a no, nothing at all, or that it must be answered. */
export type Unticked = 'no' | 'unknown' | 'must-answer'

const choices = ['yes', 'no', 'cant-tell'] as const

/** Field names of a question; the page's field ids are the same. */
export const fieldOf = (question: string): string => `q-${question}`
export const numberFieldOf = (question: string): string => `n-${question}`

/**
 * One question to show. What was just sent wins over what is stored, so that a mistake loses nothing.
 */
export function itemView(
  question: Question,
  stored: Answer | undefined,
  sent: Sent | null = null,
  problems: readonly Problem[] = [],
): ItemView {
  const name = fieldOf(question.id)
  const chosen = sent ? textsOf(sent, name) : stored === undefined ? [] : [String(stored)]
  const reading = sent ? (textsOf(sent, numberFieldOf(question.id))[0] ?? '') : ''
  const unit = question.unit && unitWords(question.unit)
  const wrong = problems.find(({ field }) => field === name)
  return {
    id: question.id,
    name,
    text: question.text,
    statement: question.statement,
    help: question.help ?? null,
    number:
      question.kind === 'number'
        ? {
            name: numberFieldOf(question.id),
            value: sent ? reading : typeof stored === 'number' ? String(stored) : '',
            unit: unit?.short ?? '',
            spoken: unit?.long ?? '',
          }
        : null,
    choices: choices.map((value) => ({ value, words: answerWords(value), chosen: chosen.includes(value) })),
    ticked: chosen.includes('yes'),
    cantTell: chosen.includes('cant-tell'),
    problem: wrong ? (wrong.here ?? wrong.message) : null,
  }
}

/**
 * Read the answers to `asked` off what a form sent. A button `rest` says what becomes of those without an answer.
 *
 * @throws BadRequest when a field holds what no form of ours sends
 */
export function answersFrom(asked: readonly Question[], sent: Sent, unticked: Unticked): Parsed {
  const said = textOf(sent, 'rest')
  const rest = said === 'no' || said === 'cant-tell' ? said : unticked
  const answers: Record<string, Answer> = {}
  const problems: Problem[] = []
  for (const question of asked) {
    const read =
      question.kind === 'number' ? readNumber(question, sent, rest) : readChoice(question, sent, rest)
    if (read === null) continue
    if (typeof read === 'object')
      problems.push({
        field: fieldOf(question.id),
        message: `${read.wrong}: ${subjectOf(question)}`,
        here: read.wrong,
      })
    else answers[question.id] = read
  }
  return problems.length === 0 ? { ok: true, answers } : { ok: false, problems }
}

function readChoice(
  question: Question,
  sent: Sent,
  rest: Unticked | 'cant-tell',
): Answer | { wrong: string } | null {
  const chosen = textsOf(sent, fieldOf(question.id))
  const [first] = chosen
  if (chosen.length > 1) return { wrong: 'Choose only one of yes and can’t tell' }
  if (first === undefined) {
    if (rest === 'must-answer') return { wrong: 'Choose yes, no or can’t tell' }
    return rest === 'unknown' ? null : rest
  }
  const choice = choices.find((value) => value === first)
  if (!choice) throw new BadRequest('An answer is yes, no or can’t tell.', { field: fieldOf(question.id) })
  return choice
}

function readNumber(
  question: Question,
  sent: Sent,
  rest: Unticked | 'cant-tell',
): Answer | { wrong: string } | null {
  const chosen = textsOf(sent, fieldOf(question.id))
  if (chosen.some((value) => value !== 'cant-tell'))
    throw new BadRequest('A reading is a number or can’t tell.', { field: fieldOf(question.id) })
  if (chosen.length > 0) return 'cant-tell'
  const text = (textsOf(sent, numberFieldOf(question.id))[0] ?? '').trim().replace(',', '.')
  const unit = question.unit ? ` of ${unitWords(question.unit).long}` : ''
  // A reading that was not taken is no "no".
  if (text === '' && (rest === 'cant-tell' || rest === 'no')) return 'cant-tell'
  if (text === '' && rest === 'unknown') return null
  if (text === '') return { wrong: `Enter a number${unit}, or choose can’t tell` }
  if (!/^[+-]?\d{1,7}(\.\d{1,6})?$/.test(text)) return { wrong: `Enter only a number${unit}, such as 9.5` }
  const reading = Number(text)
  const { min, max } = question
  if ((min !== undefined && reading < min) || (max !== undefined && reading > max))
    return {
      wrong: `Read it again: the number${unit} should lie between ${min ?? 'any'} and ${max ?? 'any'}`,
    }
  return reading
}

function subjectOf(question: Question): string {
  return question.kind === 'number' ? question.text : question.statement
}

/** Every text sent under a name. @throws BadRequest when it is neither a text nor a few texts */
export function textsOf(sent: Sent, name: string): readonly string[] {
  const value = Object.hasOwn(sent, name) ? sent[name] : undefined
  if (value === undefined) return []
  const values = Array.isArray(value) ? (value as unknown[]) : [value]
  if (values.length > 40 || values.some((text) => typeof text !== 'string'))
    throw new BadRequest(`The field ${name} must be a text.`, { field: name })
  return values as string[]
}

/** The one text sent under a name, trimmed; empty when there is none. */
export function textOf(sent: Sent, name: string): string {
  return (textsOf(sent, name)[0] ?? '').trim()
}
