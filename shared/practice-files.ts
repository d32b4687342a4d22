/** What practice goes by: how hard an exercise is, and what hurts. */
import { z } from 'zod'
import { Conditions } from './conditions.js'
import { differing } from './for-kind.js'
import { CauseId, PartId } from './ids.js'
import { KindIds, Note, Order, Schema, Sentence, Short, Skill, Source } from './rule-fields.js'

/** How hard an exercise is: what may be wrong with its tool, and how far its answers may be trusted. */
export const LevelFile = z.strictObject({
  $schema: Schema,
  name: Short,
  says: Sentence.describe('what awaits the learner, in a sentence'),
  kinds: z
    .union([z.literal('all'), KindIds.min(1)])
    .describe('kinds of tool that are drawn, or "all" that there are'),
  causes: z
    .union([z.literal('all'), z.number().int().min(3).max(60)])
    .describe('how many of a kind’s commonest causes may be there, or "all"'),
  faults: z
    .enum(['one', 'as-they-come', 'chain'])
    .describe('causes in a tool: one, as many as the rulebook has it, or two of which one led to the other'),
  wrongAnswers: z
    .number()
    .min(0)
    .max(0.3)
    .default(0)
    .describe(
      'share of answers that are the contrary of what the tool shows; danger questions are always right',
    ),
  told: z.number().int().min(1).max(4).default(2).describe('things that the complaint tells'),
  skill: Skill.describe('what may be done at this bench'),
  order: Order,
  source: Source,
  note: Note,
})

const slipShape = {
  $schema: Schema,
  kinds: KindIds.min(1),
  grade: z
    .enum(['ends', 'noted'])
    .describe('does it end the exercise, or is it noted for the talk afterwards?'),
  name: Short,
  offers: Short.optional().describe(
    'a bad habit that the bench offers as a move of its own, such as "Spray it while it runs"',
  ),
  offeredAmong: z
    .enum(['look', 'test', 'mend'])
    .optional()
    .describe('where a hand would come upon it: among looks, tests or repairs'),
  offeredAt: PartId.optional().describe('the part of the tool that it is done to'),
  when: Conditions.describe(
    'over the move that is about to be made: see "Slips" in server/practice/README.md for the facts there are',
  ),
  why: Sentence.describe('what may happen to whom'),
  right: z.array(Sentence).min(2).describe('the right order, step by step'),
  order: Order,
  source: Source,
  note: Note,
}
/** A move that may hurt: judged in an exercise before it is made. */
export const SlipFile = z.strictObject({
  ...slipShape,
  forKind: differing(slipShape, ['name', 'offers', 'why', 'right']),
})

const chainShape = {
  $schema: Schema,
  kinds: KindIds.min(1),
  first: CauseId.describe('the cause that was there first'),
  then: CauseId.describe('the cause that it leads to when nobody sees to it'),
  says: Sentence.describe('how the one leads to the other, and what comes of mending only one of them'),
  order: Order,
  source: Source,
  note: Note,
}
/** Two faults of which one led to the other: whoever mends the second alone has it back soon. */
export const ChainFile = z.strictObject(chainShape)
