/** One tool of the shop: what it is, what its plate says, and where it is. */
import { z } from 'zod'
import { Amount } from './figures.js'
import { KindId } from './ids.js'

/** Where the shop says that a tool is. That it lies on the bench, or is boxed for service, its open case tells. */
export const ToolPlace = z.enum(['in-use', 'spare', 'away', 'lent', 'retired'])
export type ToolPlace = z.infer<typeof ToolPlace>

const Words = z.string().trim().max(120)

/** What is known of it beside name and kind; nothing of it is needed to begin. Days are days of the shop's calendar. */
export const ToolDetails = z.strictObject({
  volts: Words.optional().describe('as the plate says, such as "220-240"'),
  hertz: Words.optional(),
  watts: z.number().min(0).max(5000).optional(),
  strokes: z
    .number()
    .int()
    .min(1)
    .max(99_999)
    .optional()
    .describe(
      'what it should make a minute, by its plate, its manual or a sound twin: heard ones are held against it',
    ),
  serial: Words.optional(),
  bought: z.iso.date().optional(),
  price: Amount.optional().describe('what it cost, in minor units of the shop’s currency'),
  warrantyUntil: z.iso.date().optional().describe('last day of the warranty'),
  usedBy: Words.optional(),
  clientsADay: z.number().min(0).max(80).optional(),
  blades: Words.optional(),
})
export type ToolDetails = z.infer<typeof ToolDetails>

/** As long as a tool's name may be. */
export const longestToolName = 80

export const Tool = z.strictObject({
  id: z.string(),
  name: z.string().trim().min(1).max(longestToolName),
  kind: KindId,
  place: ToolPlace,
  details: ToolDetails,
  /** ISO 8601 instant, UTC */
  addedAt: z.string(),
})
export type Tool = z.infer<typeof Tool>

/** A tool that is not stored yet. */
export type NewTool = Pick<Tool, 'name' | 'kind' | 'place' | 'details'>

/** Since when it has been in a place. */
export interface ToolMove {
  readonly place: ToolPlace
  /** ISO 8601 instant, UTC */
  readonly at: string
}
