/** Who works with the program. */
import { z } from 'zod'

/** What somebody may do; `server/register/who-may.ts` says what that is. */
export const Role = z.enum(['learner', 'barber', 'lead'])
export type Role = z.infer<typeof Role>

export const Person = z.strictObject({
  id: z.string(),
  name: z.string().trim().min(1).max(80),
  role: Role,
  /** ISO 8601 instant, UTC */
  since: z.string(),
})
export type Person = z.infer<typeof Person>

/** One write of a tool, a part, care, the figures or a class. */
export interface Written {
  /** ISO 8601 instant, UTC */
  readonly at: string
  /** such as `changed`, or `place away` */
  readonly did: string
  /** null where nobody signs in, or where they were removed since */
  readonly by: string | null
}
