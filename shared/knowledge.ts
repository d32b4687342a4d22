/**
 * The shape of every file under `rules/`, written once. Types are inferred, JSON Schemas for editors
 * are generated (`npm run fix:rules`), and the loader checks every file against these at start.
 *
 * A strength, leak or chance in `rules/` is never 0 or 1: a certain clue could not be undone
 * (Cromwell's rule, Lindley 1991). Minutes are a trained hand's minutes. Money is in major units of
 * the shop's currency.
 */
import { z } from 'zod'
import { Conditions } from './conditions.js'
import { Id } from './ids.js'

const Schema = z.string().optional().describe('where an editor finds the shape of this file')
const Chance = z.number().min(0.001).max(0.999)
const Minutes = z.number().min(0).max(240)
const Sentence = z.string().trim().min(3).max(400)
const Short = z.string().trim().min(2).max(110)
const Ids = z.array(Id)
const Order = z.number().int().describe('place in its list, lower first')
const Source = Id.describe('a key of rules/sources.json: where the numbers and statements come from')
const Note = z
  .string()
  .max(600)
  .optional()
  .describe('a comment for the next editor; never shown at the bench')

/** Who may do it. S1 any barber; S2 trained apprentice, outside covers; S3 competent bench hand; S4 specialist. */
export const Skill = z.enum(['S1', 'S2', 'S3', 'S4'])
export type Skill = z.infer<typeof Skill>

/** Where a number or statement comes from. */
export const SourceEntry = z.strictObject({
  standing: z.enum(['published', 'common-practice', 'estimate', 'memory']),
  title: Short.describe('what to call it on a page, such as "workshop estimate"'),
  reference: z.string().max(400).optional().describe('authors, title, year, clause'),
  address: z.url().optional(),
  note: Note,
})
export const Sources = z.record(Id, SourceEntry)

/** One drive family: its parts and the share of its troubled tools that have several faults at once. */
export const KindFile = z.strictObject({
  $schema: Schema,
  name: Short,
  plainName: Short.describe('what a barber would call it'),
  tell: z.array(Sentence).min(2).describe('how to know that one holds this kind'),
  works: Sentence.describe('how it works, in a breath'),
  drawing: Id,
  parts: z.array(z.strictObject({ id: Id, name: Short })).min(3),
  severalFaults: z.strictObject({
    share: z.number().gt(0).lt(0.9).describe('share of troubled tools with two causes or more'),
    source: Source,
  }),
  order: z.number().int().describe('place in the list of kinds'),
  source: Source,
  note: Note,
})

/** A state of the tool that steps and fixes need; paid once while it stands. */
export const SetupFile = z.strictObject({
  $schema: Schema,
  kinds: Ids.min(1),
  name: Short.describe('such as "Plug out"'),
  how: z.array(Sentence).min(1),
  minutes: Minutes.describe('to get there and to put it back, waiting included'),
  skill: Skill,
  needs: Ids.describe('set-ups that must stand first'),
  withPower: z.boolean().describe('may the tool run while this stands?'),
  opensBody: z
    .boolean()
    .default(false)
    .describe('does it bare mains parts, so that a safety test must follow?'),
  tools: z.array(Short),
  cautions: z.array(Sentence),
  order: z.number().int().describe('place in the order of work, outside first'),
  source: Source,
  note: Note,
})

/** One fault or misuse that can make the tool misbehave. */
export const CauseFile = z.strictObject({
  $schema: Schema,
  name: Short.describe('such as "Worn carbon brushes"'),
  part: Id.describe('the part of the kind that is shaded for it'),
  description: Sentence.describe('how it makes the tool misbehave'),
  shares: z
    .record(Id, z.number().gt(0).max(1000))
    .describe('of 1000 troubled tools of a kind, in how many it is the main cause'),
  exclusive: z.boolean().default(false).describe('true for "nothing wrong": it excludes every other cause'),
  ifIgnored: Sentence,
  hazard: Sentence.optional(),
  service: z.enum(['mend', 'retire']).describe('what a service can usually do about it'),
  sendIn: Sentence.optional().describe('when or why it goes to a service'),
  source: Source,
  note: Note,
})

const Strength = z.union([Chance, z.record(Id, Chance)])

/** A symptom rule: what is true or false of the tool, and which causes it points to. */
export const FindingFile = z.strictObject({
  $schema: Schema,
  kinds: Ids.min(1),
  says: Short.describe('the statement, true or false of the tool, in bench words'),
  because: Sentence.describe('why it points where it points'),
  when: Conditions.describe('over the answer to exactly one question'),
  leak: Chance.describe('P(true | none of its causes present), in a tool that is in some other trouble'),
  strengths: z
    .record(Id, Strength)
    .describe(
      'P(true | this cause alone present) for each cause; a map from kind to chance where kinds differ',
    ),
  topic: Id.optional().describe('findings that are sides of one test or one number: one witness, not two'),
  running: z.boolean().default(false).describe('can it only be seen on a running tool?'),
  threshold: z.strictObject({ why: Sentence, source: Source }).optional(),
  source: Source,
  note: Note,
})

/** What a person is asked; its answer is a fact for the rules. */
export const Question = z.strictObject({
  id: Id,
  text: Short.describe('the question itself, to be answered yes, no or with a number'),
  statement: Short.describe('the same as a statement to tick, such as "It cuts in and out"'),
  kind: z.enum(['yes-no', 'number']).default('yes-no'),
  unit: z.enum(['mm', 'degC', 'min', 'ohm', 'V', 'W', 'percent', 'per-minute']).optional(),
  min: z.number().optional().describe('least reading that can be, in the unit'),
  max: z.number().optional().describe('greatest reading that can be, in the unit'),
  help: Sentence.optional().describe('one more sentence for whoever is unsure'),
  sense: z
    .enum(['hands', 'eyes', 'ears', 'nose', 'story'])
    .optional()
    .describe('set where a person may tell it unasked: the group on the complaint page'),
  words: z.array(Short).default([]).describe('other ways people say it, for the search'),
})
export type Question = z.infer<typeof Question>

/** One thing that a hand does, which may settle several questions at once. */
export const StepFile = z.strictObject({
  $schema: Schema,
  kinds: Ids.min(1),
  form: z.enum(['danger', 'ask', 'check']),
  title: Short,
  tells: Sentence.describe('why a good bench does this'),
  how: z.array(Sentence),
  minutes: Minutes.describe('without the set-ups'),
  setups: Ids,
  power: z.boolean().describe('does the tool run during it?'),
  skill: Skill,
  tools: z.array(Short),
  cautions: z.array(Sentence),
  drawing: Id.optional(),
  untickedMeansNo: z.boolean().default(true).describe('is a statement left unticked a "no", or not known?'),
  questions: z.array(Question).min(1).max(16),
  order: z.number().int().describe('place in the order a good bench keeps; settles ties'),
  source: Source,
  note: Note,
})

/** One repair or care action. */
export const FixFile = z.strictObject({
  $schema: Schema,
  kinds: Ids.min(1),
  name: Short.describe('an instruction, such as "Fit a new pair of brushes"'),
  cures: z.record(Id, Chance).describe('chance that it cures each cause, for a hand of the stated skill'),
  minutes: Minutes.describe('without the set-ups, the test run included'),
  setups: Ids,
  skill: Skill,
  parts: z.array(
    z.strictObject({
      name: Short,
      cost: z.number().min(0).max(1000).describe('in major units of the currency'),
    }),
  ),
  tools: z.array(Short),
  cautions: z.array(Sentence).min(1),
  steps: z.array(z.strictObject({ do: Sentence, caution: Sentence.optional() })).min(1),
  cured: Sentence.describe('how to see that it is cured'),
  outcome: Question.optional().describe('where the test is the repair: what "better" or "no" tells'),
  ends: z.literal('nothing-found').optional(),
  safetyTest: z.boolean().default(false).describe('must an electrical safety test follow?'),
  drawing: Id.optional(),
  afterwards: z.array(Id).default([]).describe('care tasks that keep it from coming back'),
  order: Order,
  source: Source,
  note: Note,
})

/** A danger. Settled before any probability: danger is not weighed. */
export const StopFile = z.strictObject({
  $schema: Schema,
  kinds: Ids.min(1),
  grade: z.enum(['set-aside', 'off-the-client']),
  name: Short,
  when: Conditions.describe('over findings: "yes", "no", "cant-tell" or "unknown"'),
  why: Sentence,
  now: z.array(Sentence).min(2).describe('what to do now, in order'),
  lift: Sentence.describe('the act that lifts it'),
  liftedBy: Sentence.describe('who may do that act'),
  checkQuestion: Sentence.describe('the one more question before a mistaken tick is taken back'),
  order: Order,
  source: Source,
  note: Note,
})

/** When a question or a step makes no sense, or must wait. */
export const RelevanceFile = z.strictObject({
  $schema: Schema,
  kinds: Ids.min(1),
  because: Sentence.describe('said to the person at the bench'),
  when: Conditions.describe('over findings: "yes", "no", "cant-tell" or "unknown"'),
  hides: z.strictObject({
    running: z.boolean().default(false).describe('findings seen only on a running tool are unknown'),
    power: z.boolean().default(false).describe('steps under power wait'),
    questions: Ids.default([]).describe('questions that are not asked'),
    fixes: Ids.default([]).describe('fixes that are not offered'),
  }),
  source: Source,
  note: Note,
})

/**
 * What bars a step or a fix in this shop. Facts: `skill-short-by` (levels missing, 0 to 3), `times-tried` (a count),
 * `for` ("step" or "fix"), and `needs-safety-test`, `can-safety-test`, `opens-body`, `in-warranty`, which are "yes"
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

/** What is done how often so that it does not happen again. */
export const CareFile = z.strictObject({
  $schema: Schema,
  kinds: Ids.min(1),
  name: Short,
  every: Short.describe('in the words of the shop, such as "at least monthly"'),
  everyDays: z.number().gt(0).max(800).optional().describe('days between; absent where it goes by use'),
  how: z.array(Sentence).min(1),
  cautions: z.array(Sentence),
  prevents: Ids.min(1),
  skill: Skill,
  order: Order,
  source: Source,
  note: Note,
})

/** Old id to new id, for each folder; stored cases point at ids. */
export const Moved = z.record(Id, z.record(Id, Id))

/** Every folder under `rules/` with the shape of its files. */
export const folders = {
  kinds: KindFile,
  setups: SetupFile,
  causes: CauseFile,
  findings: FindingFile,
  steps: StepFile,
  fixes: FixFile,
  stops: StopFile,
  relevance: RelevanceFile,
  policy: PolicyFile,
  care: CareFile,
} as const
export type Folder = keyof typeof folders
/** The keys of `folders`: an object's keys are typed as any text, and these are known to be no others. */
export const folderNames = Object.keys(folders) as readonly Folder[]

type Entry<F extends Folder> = z.infer<(typeof folders)[F]> & { readonly id: string }
export type Kind = Entry<'kinds'>
export type Setup = Entry<'setups'>
export type Cause = Entry<'causes'>
export type Finding = Entry<'findings'>
export type Step = Entry<'steps'>
export type Fix = Entry<'fixes'>
export type Stop = Entry<'stops'>
export type Relevance = Entry<'relevance'>
export type Policy = Entry<'policy'>
export type Care = Entry<'care'>
export type Sources = z.infer<typeof Sources>

/** The rulebook as loaded: each list in rulebook order (`order` where a file has it, then id). Frozen. */
export interface Knowledge {
  readonly kinds: readonly Kind[]
  readonly setups: readonly Setup[]
  readonly causes: readonly Cause[]
  readonly findings: readonly Finding[]
  readonly steps: readonly Step[]
  readonly fixes: readonly Fix[]
  readonly stops: readonly Stop[]
  readonly relevance: readonly Relevance[]
  readonly policy: readonly Policy[]
  readonly care: readonly Care[]
  readonly sources: Sources
  readonly moved: z.infer<typeof Moved>
}
