/** What the JSON API takes and gives. The OpenAPI document is made from these; so are the checks on what comes in. */
import { z } from 'zod'
import { CameBack, CaseEvent, CaseState } from './case.js'
import { Conditions } from './conditions.js'
import { Amount, Currency, FigureFrom, FigureName, Figures, SomeFigures } from './figures.js'
import { Id } from './ids.js'
import { RelevanceFile, StopFile } from './evidence-files.js'
import { Skill } from './rule-fields.js'
import { Answer, ShopSettings, Situation } from './situation.js'
import { someOf } from './some-of.js'
import { Question, StepFile } from './work-files.js'

const Probability = z.number().min(0).max(1)
const Money = z.number().describe('in major units of the currency')
const Minutes = z.number().min(0)
const Instant = z.iso.datetime().describe('ISO 8601, UTC')

/** `GET /api/rulebook`: what the scoring and the planning of one kind use. */
export const RulebookView = z.strictObject({
  kind: Id,
  causes: z.array(
    z.strictObject({
      id: Id,
      name: z.string(),
      per1000: z.number().describe('of 1000 troubled tools, in how many it is the main cause'),
      prior: Probability.describe('chance beforehand that it is there, as scored'),
      exclusive: z.boolean().describe('true for "nothing wrong": it excludes every other cause'),
    }),
  ),
  findings: z.array(
    z.strictObject({
      id: Id,
      question: Id,
      when: Conditions.describe('the condition of the rules engine; its fact is the question'),
      topic: Id.nullable().describe('of one topic only the first known finding is scored'),
      leak: Probability,
      strengths: z.record(Id, Probability).describe('a cause that is absent has 0'),
      running: z.boolean().describe('can it only be seen on a running tool?'),
    }),
  ),
  questions: z.array(
    z.strictObject({
      id: Id,
      text: z.string(),
      step: Id.nullable().describe('null where the test is a fix, see `outcome` there'),
      kind: z.enum(['yes-no', 'number']),
      unit: Question.shape.unit.unwrap().nullable(),
      min: z.number().nullable(),
      max: z.number().nullable(),
    }),
  ),
  steps: z.array(
    z.strictObject({
      id: Id,
      questions: z.array(Id),
      minutes: Minutes.describe('without the set-ups'),
      setup: z.array(Id),
      power: z.boolean(),
      skill: Skill,
      form: StepFile.shape.form,
    }),
  ),
  setups: z.array(
    z.strictObject({ id: Id, minutes: Minutes, needs: z.array(Id), withPower: z.boolean(), skill: Skill }),
  ),
  fixes: z.array(
    z.strictObject({
      id: Id,
      cures: z.record(Id, Probability),
      minutes: Minutes.describe('without the set-ups'),
      parts: Money.describe('what its parts cost together, in major units of the currency'),
      setup: z.array(Id),
      skill: Skill,
      outcome: Id.nullable().describe('the question that trying it answers: better is yes, no is no'),
    }),
  ),
  stops: z.array(
    z.strictObject({
      id: Id,
      grade: StopFile.shape.grade,
      when: Conditions.describe('over findings'),
    }),
  ),
  relevance: z
    .array(
      z.strictObject({
        id: Id,
        when: Conditions.describe('over findings as answered'),
        hides: RelevanceFile.shape.hides.describe(
          'running: a "no" to what shows on a running tool is unknown',
        ),
      }),
    )
    .describe('what is not asked now, and which answers then say nothing'),
})
export type RulebookView = z.infer<typeof RulebookView>

/** `POST /api/assess`: a situation, and the shop's figures where they differ from the server's. */
export const AssessRequest = Situation.extend({
  shop: someOf(ShopSettings)
    .optional()
    .describe('any of what the plan reckons with; the others follow from the figures that the server has'),
})

const Weight = z.strictObject({
  finding: Id,
  question: Id,
  says: z.string(),
  decibans: z.number().describe('had this answer been missing, the others given; they do not add up'),
})

/** The whole diagnosis of one situation. */
export const AssessmentView = z.strictObject({
  stop: z
    .strictObject({
      id: Id,
      grade: StopFile.shape.grade,
      now: z.array(z.string()),
      firstAid: z.array(z.string()),
    })
    .nullable()
    .describe('the worst danger that nobody has lifted'),
  exact: z.boolean().describe('was the scoring exact?'),
  doubt: z
    .strictObject({
      finding: Id,
      question: Id,
      said: z.boolean().describe('did the answer make the finding true?'),
      slip: Probability.describe('it was told the wrong way round, given all the other answers'),
      leads: Id.describe('the likeliest cause if it were the other way round'),
    })
    .nullable()
    .describe('the answer that fits the others least, where another look at it is worth while'),
  causes: z
    .array(
      z.strictObject({
        id: Id,
        name: z.string(),
        probability: Probability.describe('it is there now; several may be, so these do not sum to 1'),
        sole: Probability.describe('it alone is there now'),
        for: z.array(Weight),
        against: z.array(Weight),
      }),
    )
    .describe('likeliest first'),
  next: z.strictObject({
    step: z.enum(['ask', 'check', 'fix', 'offer', 'send-in', 'retire', 'stop', 'nothing-found']),
    id: Id.nullable(),
    questions: z.array(Id).describe('to be shown; of a step at most four'),
    folded: z.array(Id).describe('the other open questions of the step, free to answer'),
    minutes: Minutes.describe('of this step, with the set-ups that do not stand yet'),
    stepCost: Money.describe('expected cost of this step itself, set-ups included'),
    expectedCost: Money.nullable().describe(
      'expected cost from here on, this step included; null for the danger questions, which come before money',
    ),
    saves: Money.describe('how much less that is than ending now'),
    separates: z.array(Id).describe('the causes that it tells apart, or cures'),
    exact: z.boolean().describe('was the rest of the plan solved exactly?'),
    after: z
      .enum(['send-in', 'retire'])
      .nullable()
      .describe(
        'how the plan would end if this step tells nothing, or this fix changes nothing; null: it goes on',
      ),
    worthMinutes: Minutes.nullable().describe(
      'minutes that this step is worth at most, its own included; then ending now would have been cheaper',
    ),
    outlook: z
      .strictObject({
        now: z
          .strictObject({
            step: z.enum(['fix', 'nothing-found', 'send-in', 'retire']),
            fix: Id.nullable(),
          })
          .describe('what would be done with no further look'),
        ending: z.enum(['send-in', 'retire']).describe('the cheaper way to end now'),
        because: z
          .enum(['no-fix-here', 'dearer-here', 'not-clear'])
          .describe('why ending, of the larger part of what may be wrong'),
        changes: Probability.describe('that a few more looks change what would be done now'),
        looks: z.number().min(0).describe('how many looks those are, expected'),
        minutes: Minutes.describe('that those looks take, expected'),
        left: z.number().min(0).describe('looks that the plan still expects to take'),
      })
      .nullable(),
  }),
  stops: z
    .array(z.strictObject({ id: Id, grade: StopFile.shape.grade }))
    .describe('all of them, worst first'),
  findings: z.record(Id, z.enum(['yes', 'no', 'cant-tell', 'unknown'])),
  hidden: z.record(Id, z.string()).describe('questions that are not asked now, with the reason'),
  unsettled: z
    .array(Id)
    .describe('danger lines that nobody has settled by yes or no; until then nothing runs'),
  barred: z.record(Id, z.string()).describe('steps and fixes barred in this shop, with the reason'),
})
export type AssessmentView = z.infer<typeof AssessmentView>

/** `GET /api/statements`: what free words mean. */
export const StatementsView = z.strictObject({
  statements: z
    .array(
      z.strictObject({
        id: Id.describe('the question that it says yes to'),
        statement: z.string(),
        chance: Probability.describe('it is meant; several may be, so these do not sum to 1'),
      }),
    )
    .describe('likeliest first; empty where nothing is understood'),
})
export type StatementsView = z.infer<typeof StatementsView>

const Tool = z.string().trim().max(80).default('').describe('what the shop calls the tool')
const Words = z.string().trim().max(300)
const count = z
  .number()
  .int()
  .min(0)
  .optional()
  .describe('how many events you have seen; with another number stored, nothing is changed (409)')

/** What each request about a case may say. */
export const BeginCase = z.strictObject({ kind: Id, tool: Tool })
export const GiveAnswers = z.strictObject({
  answers: z.record(Id, Answer),
  step: Id.optional().describe('the step on which it was seen; found from the questions if absent'),
  when: z.enum(['now', 'as-before']).default('now').describe('as-before corrects what was seen earlier'),
  words: Words.optional().describe('the complaint in your own words'),
  count,
})
export const TakeBack = z.strictObject({ questions: z.array(Id).min(1).max(200), count })
export const TryFix = z.strictObject({ fix: Id, outcome: z.enum(['cured', 'better', 'no']), count })
export const UntryFix = z.strictObject({ fix: Id, count })
export const CannotDo = z.strictObject({
  id: Id.describe('a step or a fix'),
  can: z.boolean().default(false).describe('true when it can be done after all'),
  count,
})
export const LiftStop = z.strictObject({
  stop: Id,
  by: Words.min(2, 'say who did what lifts it').describe('who did the act that lifts it'),
  count,
})
export const FinishCase = z.strictObject({
  state: CaseState.exclude(['on-the-bench']),
  cause: Id.optional().describe('what it turned out to be, where somebody confirmed it'),
  note: Words.optional(),
  disinfected: z.boolean().optional(),
  count,
})
export const Nothing = z.strictObject({ count })
export const QuoteLimit = z.strictObject({
  amount: Amount.nullable().describe('in the minor unit of the shop’s currency; null takes it back'),
  count,
})
export const ComeBack = CameBack.extend({ count })

const figures = SomeFigures.default({}).describe(
  'amounts are integers in the minor unit of the shop’s currency',
)
const forget = z
  .array(FigureName)
  .max(60)
  .default([])
  .describe('figures to give back: to the usual from the shop, to the shop from a case')
export const SetFigures = z.strictObject({ figures, forget, count })
export const SetShop = z.strictObject({
  currency: z.string().max(10).optional().describe('ISO 4217 code, such as EUR; nothing is converted'),
  figures,
  forget,
  version: z
    .number()
    .int()
    .min(0)
    .optional()
    .describe('the version that you had seen: changed since, it is refused; left out, the latest is changed'),
})

/** The shop's own record, and what holds with the usual figures in the gaps. */
export const ShopView = z.strictObject({
  currency: Currency,
  figures: SomeFigures.describe('those that the shop has set'),
  version: z.number().int().min(0).describe('how often it was changed'),
  inForce: Figures.describe('all of them: the shop’s, else the usual'),
})
export type ShopView = z.infer<typeof ShopView>

/** What it turned out to be, confirmed by somebody; an unconfirmed cause is never counted. */
const Outcome = z.strictObject({ cause: Id, by: z.enum(['bench', 'service']) }).nullable()

/** A case in a list. */
export const CaseListItem = z.strictObject({
  id: z.string(),
  kind: Id,
  tool: z.string(),
  state: CaseState,
  begunAt: Instant,
  changedAt: Instant,
  words: z.string().nullable(),
  outcome: Outcome,
})
export const CaseList = z.strictObject({
  cases: z.array(CaseListItem),
  all: z.number().int().describe('how many there are, on this page and others'),
})

/** A case: what was said and done, and what follows from it. */
export const CaseView = z.strictObject({
  id: z.string(),
  kind: Id,
  tool: z.string(),
  state: CaseState,
  outcome: Outcome,
  cameBack: CameBack.nullable().describe('what was said when it came back from a service'),
  quoteLimit: Amount.nullable().describe('in minor units; null: no limit was said'),
  begunAt: Instant,
  changedAt: Instant,
  count: z.number().int().describe('how many events it has'),
  events: z.array(CaseEvent),
  situation: Situation,
  figures: z
    .strictObject({
      currency: Currency,
      inForce: Figures,
      from: z.record(FigureName, FigureFrom).describe('whose word each figure is'),
      opened: z.boolean().describe('has something that was done in this case opened the body?'),
    })
    .describe('what it is reckoned with; amounts in minor units'),
  assessment: AssessmentView,
})
export type CaseView = z.infer<typeof CaseView>

/** RFC 9457, with every mistake in `errors`. */
export const ProblemDetails = z.strictObject({
  type: z.string().describe('an address that describes this kind of problem'),
  title: z.string(),
  status: z.number().int(),
  detail: z.string(),
  instance: z.string(),
  errors: z
    .array(
      z.strictObject({
        pointer: z.string().optional().describe('JSON Pointer into the request body, as a URI fragment'),
        parameter: z.string().optional().describe('name of the query parameter'),
        detail: z.string(),
      }),
    )
    .optional(),
})
export type ProblemDetails = z.infer<typeof ProblemDetails>
export const ProblemKind = z.strictObject({
  type: z.string(),
  title: z.string(),
  status: z.int(),
  meaning: z.string(),
})
