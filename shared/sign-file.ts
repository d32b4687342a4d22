/** The signs by which somebody who does not know the kind of a tool finds it out. */
import { z } from 'zod'
import { DrawingId, KindId, SignId } from './ids.js'
import { Chance, Note, Order, Schema, Sentence, Short, Source } from './rule-fields.js'

/** One thing to look at, listen to or feel, and how often it is so in each kind. */
export const SignFile = z.strictObject({
  $schema: Schema,
  text: Short.describe('the question, to be answered yes or no'),
  statement: Short.describe('the same as a statement, such as "A slotted screw in the side"'),
  how: Sentence.optional().describe('where to look and what counts as yes'),
  kinds: z
    .record(KindId, Chance)
    .describe(
      'for every kind: the chance that somebody who holds one says yes, slips and odd makes included',
    ),
  seconds: z.number().min(2).max(600).describe('how long the look takes'),
  yesRunsOn: z
    .enum(['cord', 'battery'])
    .optional()
    .describe('a yes says that it runs on this: whoever has said that already is not asked'),
  needsPower: z
    .boolean()
    .default(false)
    .describe(
      'must the tool run for it? then it needs a caution, and is never asked of a tool that may hurt',
    ),
  caution: Sentence.optional().describe('said where the hand is'),
  after: z
    .strictObject({ sign: SignId, answer: z.enum(['yes', 'no']) })
    .optional()
    .describe('asked only of somebody who gave this answer to another sign'),
  drawing: DrawingId.optional(),
  order: Order,
  source: Source,
  note: Note,
})
