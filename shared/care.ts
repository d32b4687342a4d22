/** What was done for the care of a tool. */
import { z } from 'zod'

/** What a disinfection log is asked for beside who, when and which tool. */
export const CareDetails = z.strictObject({
  product: z.string().trim().max(120).optional(),
  contactMinutes: z.number().min(0).max(600).optional().describe('how long it stayed wet, by the label'),
  caseId: z.string().max(40).optional().describe('the case whose fix did it along the way'),
})
export type CareDetails = z.infer<typeof CareDetails>

/** One task done on one tool. What was taken back is not among them. */
export interface CareDone {
  readonly id: string
  /** what was logged by one tap */
  readonly batch: string
  readonly toolId: string
  readonly task: string
  /** day of the shop's calendar on which it was done */
  readonly day: string
  /** when it was written down: ISO 8601 instant, UTC */
  readonly at: string
  /** empty where nobody said; null for somebody who was removed since */
  readonly who: string | null
  readonly details: CareDetails
}
