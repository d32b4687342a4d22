/**
 * What `npm run cards` writes and a card shows at its foot: what the plan on paper costs beside the full plan, on the
 * same simulated tools. Money is in major units, at the figures of practice; `se` is the standard error of a mean.
 */
import { z } from 'zod'
import { Id } from './ids.js'

const Estimate = z.strictObject({ mean: z.number(), se: z.number().min(0) })
const Digest = z.string().regex(/^[0-9a-f]{64}$/, 'a SHA-256 in hexadecimal')

export const CardFigure = z.strictObject({
  tools: z.int().min(1),
  questions: z.int().min(0),
  paper: z.int().min(0).describe('digest of the card that was measured'),
  full: z.number().min(0).describe('money a tool by the full plan'),
  fullMinutes: z.number().min(0),
  minutes: z.number().min(0).describe('of a hand, a tool, by the card'),
  more: Estimate.describe('money by card less money by the full plan, tool by tool'),
  lost: Estimate.describe('money that the paper’s moves lose by the plan’s own reckoning, at least 0'),
  left: z.number().min(0).max(1).describe('share that goes on with the guided flow'),
})
export type CardFigure = z.infer<typeof CardFigure>

export const CardFigures = z.strictObject({
  kinds: z.record(
    Id,
    z.strictObject({
      rulebook: Digest.describe('of all in the kind’s rules that a figure rests on; wording is left out'),
      complaints: z.record(Id, CardFigure),
    }),
  ),
})
export type CardFigures = z.infer<typeof CardFigures>

/** Share of the full plan's cost that a card should not lose more than. */
export const cardMark = 0.05
