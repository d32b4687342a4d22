/**
 * One troubled tool on the bench. A case stores only what the user said and did, in order;
 * everything shown is recomputed from it.
 */
import { z } from 'zod'
import { Amount, FigureName, SomeFigures } from './figures.js'
import { CauseId, FixId, QuestionId, StepId, StepOrFixId, StopId } from './ids.js'
import { Answer } from './situation.js'

const Text = z.string().trim().max(300)

/**
 * What came back from a service. Days away follow from the two dates. Where it was found to be none of the causes of
 * the rulebook, `found` says it in words and `cause` is absent: then the service confirmed none.
 */
export const CameBack = z.strictObject({
  /** in the minor unit of the shop's currency; 0 where it was free */
  fee: Amount,
  /** both ways together, likewise */
  carriage: Amount,
  /** days of the shop's calendar, such as 2026-03-02 */
  left: z.iso.date(),
  back: z.iso.date(),
  mended: z.boolean(),
  /** what becomes of the tool */
  state: z.enum(['running-again', 'set-aside']),
  /** what the service says it was */
  cause: CauseId.optional(),
  found: Text.optional(),
})
export type CameBack = z.infer<typeof CameBack>

/** How a case ended, or that it has not. */
export const CaseState = z.enum(['on-the-bench', 'running-again', 'boxed-for-service', 'set-aside'])
export type CaseState = z.infer<typeof CaseState>

/** What a user can say or do. `at` of the stored event is an ISO 8601 instant, added by the store's caller. */
export const CaseEvent = z.discriminatedUnion('type', [
  z.strictObject({
    type: z.literal('answered'),
    /** where it was said: the complaint page, or a step by its id */
    step: StepId,
    answers: z.record(QuestionId, Answer),
    /** as it is now, or a correction of what was seen before (keeps its place among the fixes) */
    when: z.enum(['now', 'as-before']).default('now'),
    /** complaint in the user's own words */
    words: Text.optional(),
  }),
  z.strictObject({ type: z.literal('took-back'), questions: z.array(QuestionId).min(1) }),
  z.strictObject({ type: z.literal('cannot-do'), id: StepOrFixId }),
  z.strictObject({ type: z.literal('can-do-after-all'), id: StepOrFixId }),
  z.strictObject({ type: z.literal('tried'), fix: FixId, outcome: z.enum(['cured', 'better', 'no']) }),
  z.strictObject({ type: z.literal('untried'), fix: FixId }),
  /** how long a fix that was tried took, set-ups left out; a later one corrects an earlier one */
  z.strictObject({ type: z.literal('took'), fix: FixId, minutes: z.number().min(1).max(480) }),
  z.strictObject({ type: z.literal('lifted'), stop: StopId, by: Text }),
  z.strictObject({ type: z.literal('put-together') }),
  /** an ending was offered, and so many more looks are wanted first */
  z.strictObject({ type: z.literal('look-further'), looks: z.number().int().min(1).max(20) }),
  /** no further look is wanted before what would be done now; `so: false` takes it back */
  z.strictObject({ type: z.literal('looked-enough'), so: z.boolean() }),
  z.strictObject({ type: z.literal('disinfected'), done: z.boolean() }),
  z.strictObject({
    type: z.literal('figured'),
    /** figures of this tool or this trouble, which count before the shop's own; a later one replaces an earlier one */
    figures: SomeFigures,
    /** given back: what was said of these in this case so far counts no more. Not together with a new value */
    forget: z.array(FigureName).max(60).default([]),
  }),
  z.strictObject({
    type: z.literal('finished'),
    state: CaseState.exclude(['on-the-bench']),
    /** what it turned out to be, where somebody confirmed it */
    cause: CauseId.optional(),
    note: Text.optional(),
  }),
  z.strictObject({ type: z.literal('reopened') }),
  /** the most that a service may spend without a call, in minor units; null takes it back */
  z.strictObject({ type: z.literal('quote-limit'), amount: Amount.nullable() }),
  /** it is back from the service; a later one corrects an earlier one */
  CameBack.extend({ type: z.literal('came-back') }),
  /** said by mistake: it is still away */
  z.strictObject({ type: z.literal('still-away') }),
])
export type CaseEvent = z.infer<typeof CaseEvent>

/** A stored case: one tool, and all that was said and done about it, oldest first. */
export interface BenchCase {
  readonly id: string
  readonly kind: string
  /** what the shop calls the tool, such as "Chair 2, black one"; may be empty */
  readonly tool: string
  /** ISO 8601 instants, UTC */
  readonly begunAt: string
  readonly changedAt: string
  readonly events: readonly CaseEvent[]
}
