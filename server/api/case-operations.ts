import { z } from 'zod'
import {
  BeginCase,
  CannotDo,
  CaseList,
  CaseView,
  ComeBack,
  FinishCase,
  GiveAnswers,
  LiftStop,
  Nothing,
  QuoteLimit,
  SetFigures,
  TakeBack,
  TryFix,
  UntryFix,
} from '../../shared/api.js'
import { bookOf } from '../../shared/book-of-kind.js'
import type { CaseEvent } from '../../shared/case.js'
import type { Knowledge } from '../../shared/knowledge.js'
import type { OnBench } from '../bench/on-bench.js'
import { onBench, withAssessment } from '../bench/on-bench.js'
import { record } from '../bench/record.js'
import { kindProblems } from '../cases/acceptable.js'
import { caseStateOf } from '../cases/fold.js'
import { confirmedOutcome, quoteLimitOf, returnOf } from '../cases/outcome.js'
import type { AtHand } from '../wiring/deps.js'
import { assessmentView } from './assessment-view.js'
import type { Operation, Reply } from './operation.js'
import { operation, refuse } from './operation.js'
import { notAcceptable } from './problems.js'

const Whole = z.string().regex(/^\d{1,6}$/, 'must be a whole number')

/** What the pages do with a case, for programs. */
export const caseOperations: readonly Operation[] = [
  operation({
    name: 'listCases',
    method: 'get',
    path: '/cases',
    summary: 'The cases, lately changed first',
    input: z.object({
      open: z
        .enum(['true', 'false'], 'must be true (on the bench) or false (finished)')
        .optional()
        .describe('true: on the bench; false: finished'),
      find: z.string().max(100).optional().describe('letters of the tool’s name or of the complaint'),
      skip: Whole.optional().describe('leave out so many; 200 come at a time'),
    }),
    output: CaseList,
    status: 200,
    problems: ['not-acceptable'],
    async run({ cases }, { open, find = '', skip = '0' }) {
      const filter = { find, ...(open !== undefined && { open: open === 'true' }) }
      const [found, all] = await Promise.all([
        cases.list({ ...filter, skip: Number(skip) }),
        cases.count(filter),
      ])
      return { body: { cases: found, all } }
    },
  }),
  operation({
    name: 'beginCase',
    method: 'post',
    path: '/cases',
    summary: 'Put a tool on the bench',
    input: BeginCase,
    output: CaseView,
    status: 201,
    problems: ['not-acceptable'],
    async run(hand, { kind, tool }) {
      refuse(kindProblems(hand.knowledge, kind))
      const benchCase = await hand.cases.begin({ kind, tool, at: hand.now().toISOString() })
      return { body: caseView(await withAssessment(hand, benchCase)), location: `/api/cases/${benchCase.id}` }
    },
  }),
  operation({
    name: 'getCase',
    method: 'get',
    path: '/cases/{id}',
    summary: 'A case, and what follows from it',
    output: CaseView,
    status: 200,
    problems: ['not-found'],
    run: async (hand, _, { id = '' }) => ({ body: caseView(await onBench(hand, id)) }),
  }),
  onCase(
    'answers',
    'giveAnswers',
    'Answer questions, or correct answers',
    GiveAnswers,
    (said, hand, kind) => {
      const { answers, step, when, words } = said
      if (Object.keys(answers).length === 0 && !words) {
        throw notAcceptable([
          { path: ['answers'], message: 'is empty; answer a question, or tell it in words' },
        ])
      }
      if (
        step !== undefined &&
        step !== COMPLAINT &&
        !hand.knowledge.steps.some((it) => isOf(it, step, kind))
      ) {
        throw notAcceptable([
          { path: ['step'], message: `there is no step "${step}" for the kind "${kind}"` },
        ])
      }
      return {
        type: 'answered',
        step: step ?? stepOf(bookOf(hand.knowledge, kind), Object.keys(answers)),
        answers,
        when,
        ...(words && { words }),
      }
    },
  ),
  onCase('take-back', 'takeBack', 'Take answers back, as if never given', TakeBack, ({ questions }) => ({
    type: 'took-back',
    questions,
  })),
  onCase('tried', 'tryFix', 'A fix was done: how did it go?', TryFix, ({ fix, outcome }) => ({
    type: 'tried',
    fix,
    outcome,
  })),
  onCase('untried', 'untryFix', 'The fix was not done after all', UntryFix, ({ fix }) => ({
    type: 'untried',
    fix,
  })),
  onCase('cannot-do', 'cannotDo', 'A step or fix that cannot be done here', CannotDo, ({ id, can }) => ({
    type: can ? 'can-do-after-all' : 'cannot-do',
    id,
  })),
  onCase('lift', 'liftStop', 'The act that lifts a stop was done', LiftStop, ({ stop, by }) => ({
    type: 'lifted',
    stop,
    by,
  })),
  onCase('figures', 'setFigures', 'Figures of this tool, before the shop’s own', SetFigures, (said) => {
    const { figures, forget } = said
    if (Object.keys(figures).length === 0 && forget.length === 0) {
      throw notAcceptable([
        { path: ['figures'], message: 'is empty; say a figure, or give one back in forget' },
      ])
    }
    return { type: 'figured', figures, forget }
  }),
  onCase('finish', 'finishCase', 'The case ends', FinishCase, ({ state, cause, note, disinfected }) => [
    ...(disinfected === undefined ? [] : [{ type: 'disinfected' as const, done: disinfected }]),
    { type: 'finished', state, ...(cause && { cause }), ...(note && { note }) },
  ]),
  onCase(
    'quote-limit',
    'setQuoteLimit',
    'The most that a service may spend without a call',
    QuoteLimit,
    ({ amount }) => ({ type: 'quote-limit', amount }),
  ),
  onCase('came-back', 'cameBack', 'It is back from the service', ComeBack, ({ count: _, ...said }) => ({
    type: 'came-back',
    ...said,
  })),
  onCase('still-away', 'stillAway', 'It is not back after all', Nothing, () => ({ type: 'still-away' })),
  onCase('reopen', 'reopenCase', 'It is back on the bench', Nothing, () => ({ type: 'reopened' })),
]

const COMPLAINT = 'complaint'

const isOf = (it: { id: string; kinds: readonly string[] }, id: string, kind: string) =>
  it.id === id && it.kinds.includes(kind)

/** The step that asks all of the questions; answers from several steps were told, not looked up. */
function stepOf({ steps }: Knowledge, questions: readonly string[]): string {
  const step = steps.find((it) => questions.every((id) => it.questions.some((asked) => asked.id === id)))
  return (questions.length > 0 && step?.id) || COMPLAINT
}

/** A POST that adds what was said or done to a case. */
function onCase<Input extends z.ZodType<{ count?: number | undefined }>>(
  path: string,
  name: string,
  summary: string,
  input: Input,
  eventsFrom: (said: z.output<Input>, hand: AtHand, kind: string) => CaseEvent | CaseEvent[],
): Operation {
  return operation({
    name,
    method: 'post',
    path: `/cases/{id}/${path}`,
    summary,
    input,
    output: CaseView,
    status: 200,
    problems: ['not-found', 'moved-on', 'not-acceptable'],
    async run(hand, said, { id = '' }): Promise<Reply<CaseView>> {
      const on = await onBench(hand, id)
      const events = [eventsFrom(said, hand, on.bench.kind)].flat()
      return { body: caseView(await record(hand, on, events, said.count)) }
    },
  })
}

function caseView(on: OnBench): CaseView {
  const { bench, knowledge, inForce, currency, opened, assessment } = on
  const { events, ...rest } = bench
  // What the shop knows beforehand is no part of what was said: a client could not send it back.
  const { odds, learned, ...situation } = on.situation
  return {
    ...rest,
    state: caseStateOf(bench),
    outcome: confirmedOutcome(bench),
    cameBack: returnOf(bench),
    quoteLimit: quoteLimitOf(bench),
    count: events.length,
    events: [...events],
    situation,
    figures: { currency, inForce: inForce.figures, from: inForce.from, opened },
    assessment: assessmentView(knowledge, assessment),
  }
}
