import { z } from 'zod'

/**
 * The name of a thing in `rules/`: its file name without `.json`. Lower-case words joined by hyphens.
 * Stored cases point at ids, so an id lives for ever; a renamed one goes to `rules/moved.json`.
 */
export const Id = z
  .string()
  .regex(/^[a-z][a-z0-9]*(-[a-z0-9]+)*$/, 'must be lower-case words joined by hyphens, such as worn-brushes')
  .max(60, 'must have at most 60 characters, so that it fits a page address')

export type KindId = z.infer<typeof Id>
export type CauseId = z.infer<typeof Id>
export type FindingId = z.infer<typeof Id>
export type QuestionId = z.infer<typeof Id>
export type StepId = z.infer<typeof Id>
export type FixId = z.infer<typeof Id>
export type StopId = z.infer<typeof Id>
export type SetupId = z.infer<typeof Id>
