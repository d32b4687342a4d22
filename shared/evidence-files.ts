/** Causes, what points to them, and the rules over what was found. */
import { z } from 'zod'
import { Conditions, ConditionsOverFindings, ConditionsOverQuestions } from './conditions.js'
import { differing } from './for-kind.js'
import { CauseId, FindingId, FixId, Id, KindId, PartId, QuestionId } from './ids.js'
import { Chance, KindIds, Note, Order, Schema, Sentence, Short, Source } from './rule-fields.js'

const causeShape = {
  $schema: Schema,
  name: Short.describe('such as "Worn carbon brushes"'),
  part: PartId.describe('the part of the kind that is shaded for it'),
  description: Sentence.describe('how it makes the tool misbehave'),
  shares: z
    .record(KindId, z.number().gt(0).max(1000))
    .describe('of 1000 troubled tools of a kind, in how many it is the main cause'),
  exclusive: z.boolean().default(false).describe('true for "nothing wrong": it excludes every other cause'),
  ifIgnored: Sentence,
  hazard: Sentence.optional(),
  service: z.enum(['mend', 'retire']).describe('what a service can usually do about it'),
  sendIn: Sentence.optional().describe('when or why it goes to a service'),
  ifSentIn: Sentence.optional().describe(
    'what comes of sending it in, where the fault does not go along with the tool',
  ),
  warranty: z
    .enum(['seller', 'wear', 'handling'])
    .default('seller')
    .describe(
      'whose it usually is in warranty: the seller’s, a wear part that is left out, or the user’s own doing',
    ),
  renews: z
    .number()
    .min(0)
    .max(1)
    .default(0)
    .describe(
      'share of its used-up life that the tool gets back when this is fixed, by a new battery or motor',
    ),
  source: Source,
  note: Note,
}
/** One fault or misuse that can make the tool misbehave. */
export const CauseFile = z.strictObject({
  ...causeShape,
  forKind: differing(causeShape, ['name', 'part', 'description', 'ifIgnored', 'hazard', 'service', 'sendIn']),
})

const Strength = z.union([Chance, z.record(KindId, Chance)])

const findingShape = {
  $schema: Schema,
  kinds: KindIds.min(1),
  says: Short.describe('the statement, true or false of the tool, in bench words'),
  because: Sentence.describe('why it points where it points'),
  when: ConditionsOverQuestions.optional().describe(
    'over the answer to exactly one question; left out where it is a yes to the question of the same id',
  ),
  leak: Chance.describe('P(true | none of its causes present), in a tool that is in some other trouble'),
  strengths: z
    .record(CauseId, Strength)
    .describe(
      'P(true | this cause alone present) for each cause; a map from kind to chance where kinds differ',
    ),
  excludes: z
    .array(FindingId)
    .optional()
    .describe('findings that cannot be true of the same tool at the same time; said on one side only'),
  topic: Id.optional().describe('findings that are sides of one test or one number: one witness, not two'),
  running: z.boolean().default(false).describe('can it only be seen on a running tool?'),
  threshold: z.strictObject({ why: Sentence, source: Source }).optional(),
  earlier: z
    .strictObject({
      fixes: z.array(FixId).min(1).describe('those of the kind count'),
      done: Chance.describe('chance that whoever did it did it right, and with the right part'),
      less: z
        .strictObject({ finding: FindingId, done: Chance })
        .optional()
        .describe('the chance where this finding is true'),
    })
    .optional()
    .describe('it tells that a fix was done before the case and changed nothing'),
  source: Source,
  note: Note,
}
/** A symptom rule: what is true or false of the tool, and which causes it points to. */
export const FindingFile = z.strictObject({
  ...findingShape,
  forKind: differing(findingShape, ['says', 'because', 'leak', 'running']),
})

const stopShape = {
  $schema: Schema,
  kinds: KindIds.min(1),
  grade: z.enum(['set-aside', 'off-the-client']),
  name: Short,
  when: ConditionsOverFindings.describe('over findings: "yes", "no", "cant-tell" or "unknown"'),
  why: Sentence,
  now: z.array(Sentence).min(2).describe('what to do now, in order'),
  firstAid: z.array(Sentence).default([]).describe('what to do for whoever is hurt, in order'),
  handsOff: z
    .boolean()
    .default(false)
    .describe('while nobody is sure about it, is no hand laid on the tool, with the plug out either?'),
  lift: Sentence.describe('the act that lifts it'),
  liftedBy: Sentence.describe('who may do that act'),
  checkQuestion: Sentence.describe('the one more question before a mistaken tick is taken back'),
  order: Order,
  source: Source,
  note: Note,
}
/** A danger. Settled before any probability: danger is not weighed. */
export const StopFile = z.strictObject({
  ...stopShape,
  forKind: differing(stopShape, ['name', 'why', 'now', 'firstAid', 'lift', 'liftedBy', 'checkQuestion']),
})

/** When a question or a step makes no sense, or must wait. */
export const RelevanceFile = z.strictObject({
  $schema: Schema,
  kinds: KindIds.min(1),
  because: Sentence.describe('said to the person at the bench'),
  when: ConditionsOverFindings.describe('over findings: "yes", "no", "cant-tell" or "unknown"'),
  hides: z.strictObject({
    running: z.boolean().default(false).describe('findings seen only on a running tool are unknown'),
    power: z.boolean().default(false).describe('steps under power wait'),
    questions: z.array(QuestionId).default([]).describe('questions that are not asked'),
    fixes: z.array(FixId).default([]).describe('fixes that are not offered'),
    safetyTest: z
      .boolean()
      .default(false)
      .describe('no electrical safety test is called for: nothing inside is at mains'),
  }),
  source: Source,
  note: Note,
})

/**
 * What bars a step or a fix in this shop. Facts: `skill-short-by` (levels missing, 0 to 3), `times-tried` (a count),
 * `for` ("step" or "fix"), and `needs-safety-test`, `can-safety-test`, `opens-body`, `in-warranty`, `needs-parts`,
 * `parts-to-be-had`, which are "yes"
 * or "no", never true or false.
 */
export const PolicyFile = z.strictObject({
  $schema: Schema,
  because: Sentence,
  when: Conditions,
  bars: z.literal(true),
  liftedBy: Sentence.optional(),
  order: Order,
  source: Source,
  note: Note,
})
