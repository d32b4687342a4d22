/** Rules that come before the sum: which way out of a trouble is barred, whatever it costs, and who could lift that. */
import { z } from 'zod'
import { Conditions } from './conditions.js'
import { KindId } from './ids.js'
import { Note, Order, Schema, Sentence, Short, Source } from './rule-fields.js'

/** The ways out: mend it on this bench, send it to a service, replace it. */
export const Way = z.enum(['mend-here', 'send-in', 'replace'])
export type Way = z.infer<typeof Way>

/**
 * One such rule. Its facts are findings ("yes", "no", "cant-tell", "unknown") and
 *
 * - `in-warranty` (and not lost by opening), `opening-voids`, `opened`, `set-aside`, `disinfected`, `can-safety-test`,
 *   `parts-to-be-had`: "yes" or "no"
 * - `covered`, `wear-part`, `own-doing`: share of the trouble, in percent, that a warranty usually pays, leaves out as
 *   wear, or leaves out as the user's own doing
 * - `needs-opening`: share of the trouble, in percent, whose repair opens the body
 * - `barred-by-<policy>`: share of the trouble, in percent, that has a repair, all of them barred here by that rule
 * - `suspected-<part>`: share of the trouble, in percent, that lies in that part of the tool
 * - `age-of-life`: its age as a percentage of the life expected of a new one; 50 where the age is not known
 * - `motor-faults-this-year`: a count, this one not included
 */
export const VerdictFile = z.strictObject({
  $schema: Schema,
  kinds: z.array(KindId).min(1),
  name: Short.describe('such as "Warranty first"'),
  because: Sentence,
  when: Conditions,
  bars: z.array(Way).default([]).describe('ways out that it closes; none for one that only speaks for a way'),
  speaksFor: Way.optional().describe('the way that it speaks for'),
  first: z
    .literal('make-safe')
    .optional()
    .describe('a short act here lifts it: that act is the advice, and no way is chosen for want of it'),
  liftedBy: Sentence.describe('who could lift it, and how'),
  order: Order,
  source: Source,
  note: Note,
})
