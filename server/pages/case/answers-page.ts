import type { CaseEvent } from '../../../shared/case.js'
import { struckOut } from '../../cases/struck-out.js'
import { afterFixStep, changedStep, complaintStep } from '../../bench/case-state.js'
import type { Frame } from '../layout/frame.js'
import { caseFrame } from '../layout/frame.js'
import { lookupOf } from '../../../shared/rulebook-index.js'
import { minorWords, returnedWords } from '../decision/return-words.js'
import type { OnBench } from '../../bench/on-bench.js'
import { figuredWords } from '../shop/figure-words.js'
import { answerWords, listWords, minutes, stateWords } from '../layout/words.js'

/** Everything said and done, in order. */
export interface AnswersPage {
  readonly frame: Frame
  readonly seen: number
  readonly home: string
  readonly takeBack: string
  readonly entries: readonly EntryView[]
  /** who was at it, where people sign in */
  readonly hands: string
  /** place of the last entry, to which the way back leads */
  readonly last: number
}

interface EntryView {
  readonly heading: string
  readonly text: string
  readonly answers: readonly AnswerView[]
  /** answers of no, folded together where there are many */
  readonly noes: readonly AnswerView[]
  readonly noesWords: string
  /** one thing to undo, by a button */
  readonly undo: {
    readonly action: string
    readonly name: string
    readonly value: string
    readonly words: string
  } | null
}

interface AnswerView {
  readonly question: string
  readonly statement: string
  readonly answer: string
  /** "changed later" or "taken back"; empty while it stands */
  readonly fate: string
  readonly change: string
}

/** So many noes in one go are folded. */
const foldNoesFrom = 4

/** @param hands names of those who said or did something of it */
export function answersPage(on: OnBench, hands: readonly string[] = []): AnswersPage {
  const { knowledge, bench } = on
  return {
    frame: caseFrame(knowledge, bench, 'Answers so far', { at: '/answers' }),
    seen: bench.events.length,
    home: `/cases/${bench.id}`,
    takeBack: `/cases/${bench.id}/take-back`,
    entries: bench.events.map((event, place) => entryView(on, event, place)),
    hands: hands.length > 0 ? `At it: ${listWords(hands)}.` : '',
    last: bench.events.length - 1,
  }
}

function entryView(on: OnBench, event: CaseEvent, place: number): EntryView {
  const { knowledge, bench, situation } = on
  const { stops, fixes } = lookupOf(knowledge)
  const plain = (heading: string, text = ''): EntryView => ({
    heading,
    text,
    answers: [],
    noes: [],
    noesWords: '',
    undo: null,
  })
  const at = `/cases/${bench.id}`
  switch (event.type) {
    case 'answered':
      return answeredView(on, event, place)
    case 'took-back':
      return plain('Taken back', event.questions.map(statementIn(on)).join(' · '))
    case 'cannot-do':
      return {
        ...plain('Cannot be done here', nameOf(on, event.id)),
        undo: situation.cannotDo.includes(event.id)
          ? { action: `${at}/can-do`, name: 'id', value: event.id, words: 'It can be done after all' }
          : null,
      }
    case 'can-do-after-all':
      return plain('Can be done after all', nameOf(on, event.id))
    case 'tried': {
      const outcomes = { cured: 'cured', better: 'better, not right', no: 'no change' } as const
      const struck = struckOut(bench.events).fix(place)
      return {
        ...plain('Tried', `${fixes.get(event.fix)?.name ?? event.fix}: ${outcomes[event.outcome]}`),
        undo: struck
          ? null
          : {
              action: `${at}/untried`,
              name: 'fix',
              value: event.fix,
              words: 'It was not tried: take it back',
            },
      }
    }
    case 'untried':
      return plain('Taken back as not tried', fixes.get(event.fix)?.name ?? event.fix)
    case 'took':
      return plain('It took', `${minutes(event.minutes)}: ${fixes.get(event.fix)?.name ?? event.fix}`)
    case 'lifted':
      return plain('Lifted', `${stops.get(event.stop)?.name ?? event.stop}, by ${event.by || 'nobody named'}`)
    case 'look-further':
      return plain('Looked further', 'although an ending was offered')
    case 'looked-enough':
      return plain(event.so ? 'Looked enough' : 'Looks on after all')
    case 'put-together':
      return plain('Put together again')
    case 'disinfected':
      return plain(event.done ? 'Disinfected' : 'Not disinfected after all')
    case 'figured':
      return plain('Figures of this tool', figuredWords(event, on.currency))
    case 'finished':
      return plain(stateWords(event.state), event.note ?? '')
    case 'reopened':
      return plain('Back on the bench')
    case 'quote-limit':
      return plain(
        'Limit of the quote',
        event.amount === null ? 'none' : minorWords(event.amount, on.currency),
      )
    case 'came-back':
      return plain('Back from the service', returnedWords(on, event))
    case 'still-away':
      return plain('Still away after all')
  }
}

function answeredView(
  on: OnBench,
  event: Extract<CaseEvent, { type: 'answered' }>,
  place: number,
): EntryView {
  const { questions } = lookupOf(on.knowledge)
  const struck = struckOut(on.bench.events)
  const views = Object.entries(event.answers).map(([question, answer]) => ({
    question,
    statement: statementIn(on)(question),
    answer: answerWords(answer, questions.get(question)?.question.unit),
    fate: struck.answer(place, question)
      ? 'taken back'
      : lastAnswered(on, question) === place
        ? ''
        : 'changed later',
    change: `/cases/${on.bench.id}/answers/${question}`,
    no: answer === 'no',
  }))
  // what was changed or taken back since stands in sight: a danger that is one now must not hide behind an old no
  const noes = views.filter(({ no, fate }) => no && fate === '')
  const fold = noes.length >= foldNoesFrom
  return {
    heading: headingOf(on, event.step),
    text: event.words ? `“${event.words}”` : views.length === 0 ? 'Nothing ticked.' : '',
    answers: fold ? views.filter((view) => !noes.includes(view)) : views,
    noes: fold ? noes : [],
    noesWords: noes.length === views.length ? `No to all ${noes.length}` : `No to the other ${noes.length}`,
    undo: null,
  }
}

/** Place of the last answer to a question that was not taken back. */
function lastAnswered({ bench }: OnBench, question: string): number {
  const struck = struckOut(bench.events)
  return bench.events.findLastIndex(
    (event, place) =>
      event.type === 'answered' && event.answers[question] !== undefined && !struck.answer(place, question),
  )
}

function headingOf({ knowledge }: OnBench, step: string): string {
  if (step === complaintStep) return 'What it does'
  if (step === afterFixStep) return 'What it does now'
  if (step === changedStep) return 'Said again'
  const { steps, fixes } = lookupOf(knowledge)
  return steps.get(step)?.title ?? fixes.get(step)?.name ?? 'An answer'
}

function nameOf({ knowledge }: OnBench, id: string): string {
  const { steps, fixes } = lookupOf(knowledge)
  return steps.get(id)?.title ?? fixes.get(id)?.name ?? id
}

function statementIn({ knowledge }: OnBench): (id: string) => string {
  const { questions } = lookupOf(knowledge)
  return (id) => questions.get(id)?.question.statement ?? id
}
