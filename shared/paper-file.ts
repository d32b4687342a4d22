/** Lines of the papers that go with a tool: how it is packed, what goes with it, and how it is retired for good. */
import { z } from 'zod'
import { ConditionsOverFindings } from './conditions.js'
import { differing } from './for-kind.js'
import { KindIds, Note, Order, Schema, Sentence, Source } from './rule-fields.js'

/** Which paper a line is on. */
const PaperName = z.enum(['packing', 'goes-with-it', 'retiring'])
type PaperName = z.infer<typeof PaperName>

const paperShape = {
  $schema: Schema,
  kinds: KindIds.min(1),
  on: PaperName,
  do: Sentence.describe('one thing to do or to put in, with a box before it that is ticked by hand'),
  caution: Sentence.optional().describe('shown where the hands are: before what is done'),
  when: ConditionsOverFindings.optional().describe(
    'over findings: the line is there only when this holds; absent: always',
  ),
  unless: ConditionsOverFindings.optional().describe('over findings: the line is not there when this holds'),
  order: Order,
  source: Source,
  note: Note,
}
export const PaperFile = z.strictObject({
  ...paperShape,
  forKind: differing(paperShape, ['do', 'caution']),
})
