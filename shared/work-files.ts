/** What hands do: set-ups, steps with their questions, fixes and care. */
import { z } from 'zod'
import { differing } from './for-kind.js'
import { CareId, CauseId, DrawingId, Id, QuestionId, SetupId } from './ids.js'
import {
  Chance,
  KindIds,
  Minutes,
  Note,
  Order,
  Schema,
  Sentence,
  Short,
  Skill,
  Source,
} from './rule-fields.js'
import { ToldBy } from './telling-file.js'

const SetupIds = z.array(SetupId)

const setupShape = {
  $schema: Schema,
  kinds: KindIds.min(1),
  name: Short.describe('such as "Plug out"'),
  undone: Short.optional().describe('how it is put back, such as "Plug in"'),
  without: Short.optional().describe(
    'how the tool stands without it, such as "Plugged in"; left out where `undone` says that',
  ),
  how: z.array(Sentence).min(1),
  back: z.array(Sentence).min(1).describe('how it is put back'),
  minutes: Minutes.describe('to get there and to put it back, waiting included'),
  skill: Skill,
  needs: SetupIds.describe('set-ups that must stand first'),
  withPower: z.boolean().describe('may the tool run while this stands?'),
  opensBody: z
    .boolean()
    .default(false)
    .describe('does it bare mains parts, so that a safety test must follow?'),
  opensCase: z
    .boolean()
    .optional()
    .describe('does it open a body that bares no mains parts? A warranty may end by that too'),
  tools: z.array(Short),
  cautions: z.array(Sentence),
  order: z.number().int().describe('place in the order of work, outside first'),
  source: Source,
  note: Note,
}
/** A state of the tool that steps and fixes need; paid once while it stands. */
export const SetupFile = z.strictObject({
  ...setupShape,
  forKind: differing(setupShape, [
    'name',
    'undone',
    'without',
    'how',
    'back',
    'minutes',
    'skill',
    'needs',
    'withPower',
    'opensBody',
    'opensCase',
    'tools',
    'cautions',
  ]),
})

/**
 * What sound tells. Ten seconds: the rate in percent of what it should be, how far it sinks in hair or while it runs in
 * the air (percent), silences (a count), silences at even distances, a second and slower beat. A minute: how far the
 * rate falls (percent), whether its hiss grows, whether all of it fades (decibels).
 */
const HeardPart = z.enum(['rate', 'droop', 'sinks', 'drop-outs', 'rhythm', 'beat', 'falls', 'grows', 'fades'])

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
  unasked: Chance.optional().describe(
    'P(it is among the first words of somebody who sees it), an estimate; what has none is seldom said',
  ),
  worry: Short.optional().describe(
    'what a client says who takes for a fault what a yes tells is none, such as "It gets warm in my hand"',
  ),
  normalForm: z
    .array(QuestionId)
    .min(1)
    .optional()
    .describe(
      'what tells that a yes is no fault, such as only warm where it is said to get hot: asked next, together, unless something speaks against it',
    ),
  toldBy: ToldBy.optional().describe(
    'what it takes to tell, where that is not plain from its sense, its number or its step',
  ),
  heard: z
    .strictObject({
      what: HeardPart,
      atLeast: z.number().gt(0).optional().describe('from so much on the answer is yes'),
    })
    .optional()
    .describe('what of its sound answers it; a number is answered with it, a yes-no by its limit'),
})
export type Question = z.infer<typeof Question>

/** Neither danger nor evidence enough to be asked for its own sake, yet it decides whether this can be done at all. */
const first = z
  .array(QuestionId)
  .default([])
  .describe('questions that must have an answer before this is offered')

const stepShape = {
  $schema: Schema,
  kinds: KindIds.min(1),
  form: z.enum(['danger', 'ask', 'check']),
  title: Short,
  tells: Sentence.describe('why a good bench does this'),
  how: z.array(Sentence),
  minutes: Minutes.describe('without the set-ups'),
  setups: SetupIds,
  power: z.boolean().describe('does the tool run during it?'),
  skill: Skill,
  tools: z.array(Short),
  cautions: z.array(Sentence),
  drawing: DrawingId.optional(),
  untickedMeansNo: z.boolean().default(true).describe('is a statement left unticked a "no", or not known?'),
  first,
  opens: z
    .literal(true)
    .optional()
    .describe('is a yes in it trouble that people come in with? Else it only tells what happened'),
  questions: z.array(Question).min(1).max(30),
  gathered: z
    .array(z.strictObject({ line: Short, questions: z.array(QuestionId).min(2) }))
    .default([])
    .describe('danger signs that stand behind one line which names them all, so that the list fits a phone'),
  order: z.number().int().describe('place in the order a good bench keeps; settles ties'),
  source: Source,
  note: Note,
}
/** One thing that a hand does, which may settle several questions at once. */
export const StepFile = z.strictObject({
  ...stepShape,
  forKind: differing(stepShape, [
    'title',
    'tells',
    'how',
    'minutes',
    'setups',
    'power',
    'skill',
    'tools',
    'cautions',
    'drawing',
    'order',
  ]),
})

const fixShape = {
  $schema: Schema,
  kinds: KindIds.min(1),
  name: Short.describe('an instruction, such as "Fit a new pair of brushes"'),
  cures: z
    .record(CauseId, Chance)
    .describe('chance that it cures each cause, for a hand of the stated skill'),
  minutes: Minutes.describe('without the set-ups, the test run included'),
  setups: SetupIds,
  power: z
    .boolean()
    .default(false)
    .describe('is it run or charged while it is done, not only to see whether it is cured?'),
  first,
  skill: Skill,
  parts: z.array(
    z.strictObject({
      name: Short,
      cost: z.number().min(0).max(1000).describe('in major units of the currency'),
      common: z
        .literal(true)
        .optional()
        .describe(
          'nothing of this very tool: oil, solder, sharpening, or what is changed only if it is worn',
        ),
    }),
  ),
  tools: z.array(Short),
  cautions: z.array(Sentence).min(1),
  steps: z
    .array(
      z.strictObject({
        do: Sentence,
        caution: Sentence.optional(),
        settles: QuestionId.optional().describe(
          'what the look in this line answers: after a no nothing is replaced, the case thinks anew',
        ),
        trial: z
          .literal(true)
          .optional()
          .describe('it runs in this line: what cannot stand under power is put back before it'),
      }),
    )
    .min(1),
  putsBack: SetupIds.optional().describe('set-ups that the work itself puts back, in its own lines'),
  cured: Sentence.describe('how to see that it is cured'),
  outcome: Question.optional().describe('where the test is the repair: what "better" or "no" tells'),
  ends: z.literal('nothing-found').optional(),
  safetyTest: z.boolean().default(false).describe('must an electrical safety test follow?'),
  drawing: DrawingId.optional(),
  afterwards: z.array(CareId).default([]).describe('care tasks that keep it from coming back'),
  order: Order,
  source: Source,
  note: Note,
}
/** One repair or care action. */
export const FixFile = z.strictObject({
  ...fixShape,
  forKind: differing(fixShape, [
    'name',
    'minutes',
    'setups',
    'skill',
    'parts',
    'tools',
    'cautions',
    'steps',
    'putsBack',
    'cured',
    'safetyTest',
    'drawing',
    'afterwards',
  ]),
})

const careShape = {
  $schema: Schema,
  kinds: KindIds.min(1),
  name: Short,
  every: Short.describe('in the words of the shop, such as "at least monthly"'),
  everyDays: z.number().gt(0).max(800).optional().describe('days between; absent where it goes by use'),
  everyHours: z
    .number()
    .gt(0)
    .max(5000)
    .optional()
    .describe('running hours between, where they come before the days'),
  minutes: Minutes.describe('for one tool, an estimate'),
  how: z.array(Sentence).min(1),
  cautions: z.array(Sentence),
  prevents: z.array(CauseId).min(1),
  resets: z
    .record(CauseId, z.number().gt(1).max(6))
    .default({})
    .describe(
      'wear that begins anew with it: shape β of its Weibull law, an estimate without source; how fast it wears (η) cancels out',
    ),
  storage: z
    .strictObject({
      wakeDays: z
        .number()
        .int()
        .min(7)
        .max(400)
        .optional()
        .describe('days after which it is looked at while it rests'),
    })
    .optional()
    .describe('is it due when a tool is laid by, and when it comes back into use?'),
  disinfects: z.literal(true).optional().describe('is it what an inspector asks the log for?'),
  skill: Skill,
  order: Order,
  source: Source,
  note: Note,
}
/** What is done how often so that it does not happen again. */
export const CareFile = z.strictObject({
  ...careShape,
  forKind: differing(careShape, [
    'name',
    'every',
    'everyDays',
    'everyHours',
    'minutes',
    'how',
    'cautions',
    'skill',
  ]),
})

/** Does it need a part of this very tool, one that may have to be waited for or can no longer be had? */
export const needsParts = ({ parts }: Pick<z.infer<typeof FixFile>, 'parts'>): boolean =>
  parts.some(({ common }) => !common)
