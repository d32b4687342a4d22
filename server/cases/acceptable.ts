/**
 * What may come in. Shapes are zod's matter; here is whether the rulebook knows the names, and whether the
 * case can take the event as it stands. Pages and API share it.
 */
import { bookOf } from '../../shared/book-of-kind.js'
import type { BenchCase, CaseEvent } from '../../shared/case.js'
import type { Assessment } from '../../shared/diagnosis.js'
import type { Knowledge, Question } from '../../shared/knowledge.js'
import type { Answer, Situation } from '../../shared/situation.js'
import type { ValueProblem } from '../errors.js'
import { caseStateOf } from './fold.js'
import { returnOf } from './outcome.js'
import { struckOut } from './struck-out.js'

/** Every question that may be answered for a kind: on its steps, and as the outcome of its fixes. */
export function questionsOf(knowledge: Knowledge, kind: string): Map<string, Question> {
  const { steps, fixes } = bookOf(knowledge, kind)
  return new Map(
    [...steps.flatMap((step) => step.questions), ...fixes.flatMap((fix) => fix.outcome ?? [])].map(
      (question) => [question.id, question],
    ),
  )
}

export function kindProblems(knowledge: Knowledge, kind: string): ValueProblem[] {
  const names = knowledge.kinds.map(({ id }) => id)
  if (names.includes(kind)) return []
  return [{ path: ['kind'], message: `there is no kind "${kind}"; use ${names.join(' or ')}` }]
}

/** Answers to questions that the kind does not have, words for numbers, numbers out of range. */
function answerProblems(
  knowledge: Knowledge,
  kind: string,
  answers: Readonly<Record<string, Answer>>,
): ValueProblem[] {
  const questions = questionsOf(knowledge, kind)
  return Object.entries(answers).flatMap(([id, answer]) => {
    const question = questions.get(id)
    const message = question ? answerMessage(question, answer) : noSuch('question', id, kind)
    return message === null ? [] : [{ path: ['answers', id], message }]
  })
}

function answerMessage({ kind, unit, min, max }: Question, answer: Answer): string | null {
  if (answer === 'cant-tell') return null
  if (kind === 'yes-no') {
    return typeof answer === 'number' ? 'is asked for yes or no; use "yes", "no" or "cant-tell"' : null
  }
  const wanted = `a number${unit ? ` of ${unit}` : ''}${rangeWords(min, max)}`
  if (typeof answer !== 'number') return `must be ${wanted}, or "cant-tell"`
  if (answer < (min ?? -Infinity) || answer > (max ?? Infinity))
    return `${answer} must be ${wanted}; read it again`
  return null
}

function rangeWords(min: number | undefined, max: number | undefined): string {
  if (min !== undefined && max !== undefined) return ` from ${min} to ${max}`
  if (min !== undefined) return ` of at least ${min}`
  return max === undefined ? '' : ` of at most ${max}`
}

const noSuch = (what: string, id: string, kind: string) =>
  `there is no ${what} "${id}" for the kind "${kind}"; /api/rulebook?kind=${kind} lists them`

/** Everything in a stateless situation that the rulebook does not know. */
export function situationProblems(knowledge: Knowledge, situation: Situation): ValueProblem[] {
  const { kind, answers, fixesTried, answeredAfter, cannotDo, stopsLifted, standing } = situation
  const unknownKind = kindProblems(knowledge, kind)
  if (unknownKind.length > 0) return unknownKind
  const questions = questionsOf(knowledge, kind)
  const list = (field: string, ids: readonly string[], what: string, known: Known) =>
    ids.flatMap((id, i) =>
      known(knowledge, kind, id) ? [] : [{ path: [field, String(i)], message: noSuch(what, id, kind) }],
    )
  return [
    ...answerProblems(knowledge, kind, answers),
    ...list('fixesTried', fixesTried, 'fix', isFix),
    ...Object.entries(answeredAfter).flatMap(([id, after]) => {
      const path = ['answeredAfter', id]
      if (!questions.has(id)) return [{ path, message: noSuch('question', id, kind) }]
      if (after <= fixesTried.length) return []
      return [
        {
          path,
          message: `${after} is more than the ${fixesTried.length} in fixesTried; list those fixes too`,
        },
      ]
    }),
    ...list('cannotDo', cannotDo, 'step or fix', (...it) => isStep(...it) || isFix(...it)),
    ...list('stopsLifted', stopsLifted, 'stop', isStop),
    ...list('standing', standing, 'set-up', isSetup),
  ]
}

type Known = (knowledge: Knowledge, kind: string, id: string) => boolean
const within =
  (list: 'steps' | 'fixes' | 'stops' | 'setups'): Known =>
  (knowledge, kind, id) =>
    knowledge[list].some((it) => it.id === id && it.kinds.includes(kind))
const isStep = within('steps')
const isFix = within('fixes')
const isStop = within('stops')
const isSetup = within('setups')

/** Names in an event that the rulebook does not know for the case's kind. */
export function eventProblems(knowledge: Knowledge, kind: string, event: CaseEvent): ValueProblem[] {
  const unless = (known: boolean, field: string, what: string, id: string): ValueProblem[] =>
    known ? [] : [{ path: [field], message: noSuch(what, id, kind) }]
  switch (event.type) {
    case 'answered':
      return answerProblems(knowledge, kind, event.answers)
    case 'took-back': {
      const questions = questionsOf(knowledge, kind)
      return event.questions.flatMap((id, i) =>
        questions.has(id) ? [] : [{ path: ['questions', String(i)], message: noSuch('question', id, kind) }],
      )
    }
    case 'cannot-do':
    case 'can-do-after-all': {
      const known = isStep(knowledge, kind, event.id) || isFix(knowledge, kind, event.id)
      return unless(known, 'id', 'step or fix', event.id)
    }
    case 'tried':
    case 'untried':
    case 'took':
      return unless(isFix(knowledge, kind, event.fix), 'fix', 'fix', event.fix)
    case 'lifted':
      return unless(isStop(knowledge, kind, event.stop), 'stop', 'stop', event.stop)
    case 'figured':
      return event.forget.flatMap((name, i) =>
        event.figures[name] === undefined
          ? []
          : [
              {
                path: ['forget', String(i)],
                message: `${name} is in figures too; say a new value or give it back, not both`,
              },
            ],
      )
    case 'finished':
      return causeProblems(knowledge, kind, event.cause)
    case 'came-back':
      return [
        ...causeProblems(knowledge, kind, event.cause),
        ...(event.back < event.left
          ? [{ path: ['back'], message: `${event.back} is before it left, on ${event.left}` }]
          : []),
      ]
    default:
      return []
  }
}

function causeProblems(knowledge: Knowledge, kind: string, cause: string | undefined): ValueProblem[] {
  if (cause === undefined) return []
  const known = knowledge.causes.some(({ id, shares }) => id === cause && kind in shares)
  return known ? [] : [{ path: ['cause'], message: noSuch('cause', cause, kind) }]
}

/**
 * Why the case cannot take the event now, in words for a person; null when it can.
 *
 * @param danger what the case as it stands says of danger: active stops, and danger lines that nobody has settled
 */
export function conflictWith(
  { events }: Pick<BenchCase, 'events'>,
  event: CaseEvent,
  { stops, unsettled }: Danger,
): string | null {
  const state = caseStateOf({ events })
  const finished = state !== 'on-the-bench'
  if (event.type === 'reopened') return finished ? null : 'This case is on the bench already.'
  if (event.type === 'came-back' || event.type === 'still-away') {
    const back = returnOf({ events }) !== null
    if (event.type === 'still-away') return back ? null : 'It has not come back from a service.'
    if (!back && state !== 'boxed-for-service')
      return 'It is not boxed for service, so nothing can come back.'
  } else if (event.type === 'took') {
    return standsTried(events, event.fix) ? null : `The fix "${event.fix}" was not tried in this case.`
  } else if (finished && !(state === 'boxed-for-service' && forTheBox.has(event.type))) {
    return 'This case is finished. Put it back on the bench first.'
  }
  if (event.type === 'untried' && !standsTried(events, event.fix)) {
    return `The fix "${event.fix}" was not tried in this case, or was taken back already.`
  }
  const ended = stops.find(({ grade }) => grade === 'set-aside')
  const runs =
    event.type === 'tried' ||
    ((event.type === 'finished' || event.type === 'came-back') && event.state === 'running-again')
  if (ended && runs) return `The tool is set aside (${ended.id}). The act that lifts it comes first.`
  if (event.type === 'tried' && unsettled.length > 0) return lookFirst(unsettled)
  if (event.type === 'finished' && event.state === 'running-again') {
    const [off] = stops
    if (off) return `The tool is off the client (${off.id}). The act that lifts it comes first.`
    if (unsettled.length > 0) return lookFirst(unsettled)
  }
  return null
}

/** What the door must know of danger. */
export type Danger = Pick<Assessment, 'stops' | 'unsettled'>

const lookFirst = (unsettled: readonly string[]): string =>
  `Danger signs that nobody has settled: ${unsettled.join(', ')}. Answer them with yes or no first; until then nothing is run.`

/** What may still be said of a tool that is boxed: of the slip, and by whom a stop was lifted there. */
const forTheBox: ReadonlySet<CaseEvent['type']> = new Set(['disinfected', 'quote-limit', 'lifted'])

/** The same for events that are sent together: a stop that one of them lifts is off for the others. */
export function conflictAmong(
  bench: Pick<BenchCase, 'events'>,
  events: readonly CaseEvent[],
  { stops, unsettled }: Danger,
): string | null {
  const lifted = new Set(events.flatMap((event) => (event.type === 'lifted' ? [event.stop] : [])))
  const left = stops.filter(({ id }) => !lifted.has(id))
  return (
    events
      .map((event) => conflictWith(bench, event, { stops: left, unsettled }))
      .find((words) => words !== null) ?? null
  )
}

function standsTried(events: readonly CaseEvent[], fix: string): boolean {
  const struck = struckOut(events)
  return events.some((it, place) => it.type === 'tried' && it.fix === fix && !struck.fix(place))
}
