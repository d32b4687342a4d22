/** What the short lessons go by, beside the rest of the rulebook: faults that look the same, and advice that goes round. */
import { z } from 'zod'
import { differing } from './for-kind.js'
import { CauseId, ConfusionId, FindingId, PartId, SlipId } from './ids.js'
import { KindIds, Note, Order, Schema, Sentence, Short, Source } from './rule-fields.js'

/** A finding whose yes points to some of the rivals, and whose no points to the others. */
const TellingQuestion = z.strictObject({
  finding: FindingId,
  pointsTo: z.array(CauseId).min(1).describe('the rivals that a yes speaks for'),
})

/** Faults that look the same until the right question is asked. It is for every kind that can have two of them. */
export const ConfusionFile = z.strictObject({
  $schema: Schema,
  name: Short.describe('what the tool does, such as "It cuts out"'),
  looks: Sentence.describe('why these faults look the same, to somebody who learns'),
  shownBy: z
    .array(FindingId)
    .min(1)
    .describe('findings that are true of all of them: what people complain of'),
  onlyWith: CauseId.optional().describe('only in kinds that can have this cause'),
  rivals: z.array(CauseId).min(2).describe('the causes that look the same'),
  splitters: z.array(TellingQuestion).min(2).describe('what tells them apart'),
  checks: z
    .array(FindingId)
    .min(2)
    .describe('findings in the order in which they are looked for: safe and cheap first'),
  trap: Sentence.describe('the mistake that is made here'),
  order: Order,
  source: Source,
  note: Note,
})

/** Does advice hold as it is told? */
export const Stands = z.enum(['right', 'wrong', 'depends'])
export type Stands = z.infer<typeof Stands>

const hearsayShape = {
  $schema: Schema,
  kinds: KindIds.min(1),
  name: Short.describe(
    'what it is about, such as "A running blade in wash"; it does not give the answer away',
  ),
  told: Sentence.describe('the advice as it goes round'),
  stands: Stands.describe('"depends" where practice differs or half of it is true'),
  because: z.array(Sentence).min(1).describe('what is so, and why'),
  instead: z.array(Sentence).min(2).describe('what to do, step by step'),
  cautions: z.array(Sentence).min(1),
  part: PartId.describe('the part of the tool that it is about'),
  causes: z
    .array(CauseId)
    .min(1)
    .describe('the causes that it brings about, or that are mistaken or missed by it'),
  confusion: ConfusionId.optional().describe('the confusion that it belongs to'),
  slip: SlipId.optional().describe('what hurts when the advice is followed'),
  order: Order,
  source: Source,
  note: Note,
}
/** Advice that is often given, and what a careful bench says to it. */
export const HearsayFile = z.strictObject({
  ...hearsayShape,
  forKind: differing(hearsayShape, ['told', 'because', 'instead', 'cautions', 'part']),
})
