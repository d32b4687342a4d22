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
