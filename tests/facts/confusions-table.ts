/**
 * Twenty pairs and groups of faults that look the same, and what the trade asks to tell them apart
 * (confusions.json).
 *
 * Source of every row: common practice, no source, unless `records` names repairs that were told (Open Repair
 * Data, Open Repair Alliance, CC BY-SA 4.0, https://openrepair.org/open-data/, by record id).
 */
import { readFileSync } from 'node:fs'
import { z } from 'zod'

const Ids = z.array(z.string())

/** A question that splits the rivals: a "yes" points to some of them, a "no" to the others. */
const Splitter = z.strictObject({
  finding: z.string().describe('a reading is taken on the side of its threshold that makes the finding true'),
  pointsTo: Ids.min(1).describe('one of these leads the rivals after a "yes", none of them after a "no"'),
  told: Ids.optional().describe('what was told before, in place of the first complaint of the confusion'),
  ruledOut: Ids.default([]).describe('what was answered no before'),
  otherwise: Ids.default([]).describe('what is seen instead where the answer is no'),
  among: Ids.optional().describe('rivals here, where they are not those of the confusion'),
})
type Splitter = z.infer<typeof Splitter>

export const Confusion = z.strictObject({
  no: z.number().int(),
  looks: z.string(),
  told: Ids.min(1).describe(
    'complaints under which the rivals look the same; a fault tells the one it shows most',
  ),
  rivals: Ids.min(2),
  where: z.string().optional().describe('only in kinds that have this cause'),
  splitters: z.array(Splitter).min(1).describe('the question that is named, and the tests'),
  order: z
    .array(Ids)
    .describe('its checks, cheap and safe first; what stands in one list may come in any order'),
  records: Ids.default([]),
})
export type Confusion = z.infer<typeof Confusion>

export const confusions: readonly Confusion[] = z
  .array(Confusion)
  .length(20)
  .parse(JSON.parse(readFileSync(new URL('./confusions.json', import.meta.url), 'utf8')))
