/** What the form of the dry run says: answers to a tool on paper, and numbers changed on trial. A mistake loses nothing. */
import type { Finding, Knowledge, Question } from '../../shared/knowledge.js'
import { strengthIn } from '../../shared/finding-rule.js'
import type { Situation } from '../../shared/situation.js'
import { Situation as SituationShape } from '../../shared/situation.js'
import { questionsOf } from '../cases/acceptable.js'
import { leakIn, tidy, type NumberChange, type Trial } from '../lab/changes.js'
import type { Problem, Sent } from './answer-form.js'
import { answersFrom, fieldOf, textOf, textsOf } from './answer-form.js'
import { lookupOf } from '../../shared/rulebook-index.js'
import { dangerStep } from '../bench/on-bench.js'

/** Numbers on this page are counts: of 100 for strengths and leaks, of 1000 for shares. */
export const fieldOfStrength = (finding: string, cause: string): string => `s.${finding}.${cause}`
export const fieldOfLeak = (finding: string): string => `l.${finding}`
export const fieldOfShare = (cause: string): string => `p.${cause}`

/** The count for a cause that a sign does not point to yet. */
export const addCountField = 'add-count'

export interface LabForm {
  readonly sent: Sent
  readonly kind: string
  /** words to find a question by */
  readonly find: string
  readonly situation: Situation
  readonly trial: Trial
  /** `finding:hot-near-head` or `cause:dry-bearing`, whose numbers are laid open; empty for none */
  readonly open: string
  readonly marks: boolean
  readonly problems: readonly Problem[]
  /** names that the rulebook does not have (any more) for this kind */
  readonly unknown: readonly string[]
}

/**
 * @param book the rulebook of the kind
 * @param sent the query of the address
 * @throws BadRequest when a field holds what no form of ours sends
 */
export function labFormFrom(book: Knowledge, kind: string, sent: Sent): LabForm {
  const questions = questionsOf(book, kind)
  const asked = [...questions.values()].filter((question) => isAnswered(question, sent))
  const said = answersFrom(asked, withoutEmpty(sent), 'must-answer')
  const answers = {
    ...(textOf(sent, 'safe') === 'yes' ? noDanger(book, kind) : {}),
    ...(said.ok ? said.answers : goodAnswers(asked, sent)),
  }
  const numbers = numbersFrom(book, kind, sent)
  const balance = textOf(sent, 'balance')
  return {
    sent,
    kind,
    find: textOf(sent, 'find').slice(0, 300),
    situation: SituationShape.parse({ kind, answers }),
    trial: {
      kind,
      onlyThisKind: textOf(sent, 'only') === 'yes',
      changes: numbers.changes,
      balance: book.causes.some(({ id }) => id === balance) ? balance : null,
    },
    open: openFrom(book, sent),
    marks: textOf(sent, 'marks') === 'yes',
    problems: [...(said.ok ? [] : said.problems), ...numbers.problems],
    unknown: [...unknownQuestions(questions, sent), ...numbers.unknown],
  }
}

/** "No" to every danger sign: nothing else is planned before they are settled. */
function noDanger(book: Knowledge, kind: string): Situation['answers'] {
  const signs = dangerStep(book, kind)?.questions.filter((question) => question.kind === 'yes-no') ?? []
  return Object.fromEntries(signs.map(({ id }) => [id, 'no' as const]))
}

function isAnswered({ id }: Question, sent: Sent): boolean {
  return [fieldOf(id), `n-${id}`].some((name) => textsOf(sent, name).some((text) => text.trim() !== ''))
}

/** "Not said" is sent as an empty text, which is no answer. */
function withoutEmpty(sent: Sent): Sent {
  return Object.fromEntries(Object.entries(sent).filter(([, value]) => value !== ''))
}

/** Those answers that can be used, while others are to be put right. */
function goodAnswers(asked: readonly Question[], sent: Sent): Situation['answers'] {
  const each = asked.map((question) => answersFrom([question], withoutEmpty(sent), 'must-answer'))
  return Object.assign({}, ...each.map((read) => (read.ok ? read.answers : {}))) as Situation['answers']
}

/** What is laid open now; a button beside a sign or suspect says more than the list, which is sent with it. */
function openFrom(book: Knowledge, sent: Sent): string {
  const texts = textsOf(sent, 'open').filter((text) => text !== '')
  const open = texts.at(-1) ?? ''
  const [what, id] = open.split(':')
  const { findings, causes } = lookupOf(book)
  const known = what === 'finding' ? findings.has(id ?? '') : what === 'cause' && causes.has(id ?? '')
  return known ? open : ''
}

function numbersFrom(book: Knowledge, kind: string, sent: Sent) {
  const { findings, causes } = lookupOf(book)
  const changes: NumberChange[] = []
  const problems: Problem[] = []
  const unknown: string[] = []
  const read = (field: string, bounds: Bounds, now: number, keep: (value: number) => NumberChange): void => {
    const count = countFrom(textOf(sent, field), bounds)
    if (typeof count === 'string') problems.push({ field, message: `${bounds.name}: ${count}`, here: count })
    else if (count !== null && count !== now) changes.push(keep(count))
  }
  for (const [field, name] of fieldsOf(sent)) {
    const [what, id = '', other = ''] = name.split('.')
    const [finding, cause] = [findings.get(id), causes.get(what === 'p' ? id : other)]
    if (what === 'p' && cause)
      read(field, { of: 1000, least: 0.1, name: cause.name }, cause.shares[kind] ?? 0, (value) => ({
        of: 'share',
        cause: cause.id,
        value,
      }))
    else if (what === 'l' && finding)
      read(field, { of: 100, least: 0.1, name: finding.says }, leakIn(finding, kind), (value) => ({
        of: 'leak',
        finding: finding.id,
        value,
      }))
    else if (what === 's' && finding && cause)
      read(field, strengthBounds(finding, cause.name), strengthIn(finding, cause.id, kind) ?? 0, (value) => ({
        of: 'strength',
        finding: finding.id,
        cause: cause.id,
        value,
      }))
    else if (textOf(sent, field) !== '') unknown.push(what === 's' ? `${id}, ${other}` : id)
  }
  return { changes, problems, unknown }
}

/** Every field with a number, and what its number is of: by its own name, or as a cause that is to be added to a sign. */
function fieldsOf(sent: Sent): [field: string, name: string][] {
  const named = Object.keys(sent)
    .filter((name) => /^[slp]\.[a-z0-9-]+(\.[a-z0-9-]+)?$/.test(name))
    .map((name): [string, string] => [name, name])
  const added = fieldOfStrength(textOf(sent, 'add-to'), textOf(sent, 'add-cause'))
  return textOf(sent, 'add-cause') === '' || textOf(sent, addCountField) === ''
    ? named
    : [...named.filter(([name]) => name !== added), [addCountField, added]]
}

const strengthBounds = ({ says }: Finding, cause: string): Bounds => ({
  of: 100,
  least: 0,
  name: `${says}, ${cause.toLowerCase()}`,
})

interface Bounds {
  readonly of: 100 | 1000
  /** 0 where "not at all" may be said */
  readonly least: number
  /** whose number it is, for the summary of what is to be put right */
  readonly name: string
}

/** @returns the number as the files have it, null when nothing was typed, or what to put right */
function countFrom(text: string, { of, least }: Bounds): number | null | string {
  if (text === '') return null
  const count = Number(text.replace(',', '.'))
  if (!/^\d{1,4}([.,]\d{1,4})?$/.test(text)) return `Enter a count of ${of}, such as 40 or 12.5`
  if (of === 1000) {
    return count >= least && count <= 1000 ? count : `Enter a count of 1000 from ${least} to 1000`
  }
  if (count === 0 && least === 0) return 0
  // As far as the rulebook goes: a certain clue could not be undone.
  return count >= 0.1 && count <= 99.9
    ? tidy(count / 100)
    : `Enter a count of 100 from 0.1 to 99.9${least === 0 ? ', or 0 to take it out' : ''}`
}

function unknownQuestions(questions: ReadonlyMap<string, Question>, sent: Sent): string[] {
  return Object.keys(sent).flatMap((name) => {
    const id = /^[qn]-([a-z0-9-]+)$/.exec(name)?.[1]
    return id !== undefined && !questions.has(id) && textsOf(sent, name).some((text) => text !== '')
      ? [id]
      : []
  })
}
