/** How the shop goes about the care of its tools. */
import { z } from 'zod'
import { CareId } from './ids.js'

export const Habits = z.strictObject({
  /** IANA name of the zone of the shop's clock */
  zone: z.string().min(1).max(60),
  /** days between, for tasks where the shop goes by other ones than the rulebook; null: it does not do this task */
  everyDays: z.record(CareId, z.number().int().min(1).max(800).nullable()).default({}),
  /** the secret in the address of the calendar; null while nobody wants one */
  calendarKey: z.string().nullable().default(null),
  /** does what the shop has confirmed count in the diagnosis? */
  learns: z.boolean().default(true),
})
export type Habits = z.infer<typeof Habits>
