/** Fields that many files under `rules/` have. Minutes are a trained hand's minutes, money is in major units. */
import { z } from 'zod'
import { KindId, SourceId } from './ids.js'

export const Schema = z.string().optional().describe('where an editor finds the shape of this file')
export const Chance = z.number().min(0.001).max(0.999)
export const Minutes = z.number().min(0).max(240)
export const Sentence = z.string().trim().min(3).max(400)
export const Short = z.string().trim().min(2).max(110)
export const KindIds = z.array(KindId)
export const Order = z.number().int().describe('place in its list, lower first')
export const Source = SourceId.describe(
  'a key of rules/sources.json: where the numbers and statements come from',
)
export const Note = z
  .string()
  .max(600)
  .optional()
  .describe('a comment for the next editor; never shown at the bench')

/** Who may do it. S1 any barber; S2 trained apprentice, outside covers; S3 competent bench hand; S4 specialist. */
export const Skill = z.enum(['S1', 'S2', 'S3', 'S4'])
export type Skill = z.infer<typeof Skill>
