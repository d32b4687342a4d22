/** What lies on the shelf: parts and what is used up. */
import { z } from 'zod'
import { Amount } from './figures.js'
import { CareId } from './ids.js'

export const PartDetails = z.strictObject({
  /** where it lies, such as "drawer 3" */
  shelf: z.string().trim().max(80).optional(),
  /** days until the supplier has brought one */
  supplierDays: z.number().min(0).max(365).default(7),
  /** price of one, in minor units */
  price: Amount.optional(),
  /** parts of the rulebook that this one is, by their names in `rules/fixes/` */
  is: z.array(z.string().max(200)).max(40).default([]),
  /** what one fix or one care takes of it: 1 for a part, 0.005 for a drop from a bottle of 200 */
  perUse: z.number().gt(0).max(100).default(1),
  /** care that takes of it too */
  care: z.array(CareId).max(40).default([]),
})
export type PartDetails = z.infer<typeof PartDetails>

export interface Part {
  readonly id: string
  readonly name: string
  readonly details: PartDetails
  /** how many are there; parts of one, where it is used up in drops */
  readonly stock: number
}

/** Why the stock changed. */
export const PartWhy = z.discriminatedUnion('for', [
  z.strictObject({ for: z.literal('case'), caseId: z.string(), fix: z.string() }),
  z.strictObject({ for: z.literal('care'), task: CareId }),
  z.strictObject({ for: z.literal('counted') }),
  z.strictObject({ for: z.literal('bought') }),
])
export type PartWhy = z.infer<typeof PartWhy>

/** A change of stock that was not taken back. */
export interface PartMove {
  readonly batch: string
  readonly partId: string
  /** ISO 8601 instant, UTC */
  readonly at: string
  /** added, or taken where below 0 */
  readonly change: number
  readonly why: PartWhy
}
