/** What lies beside a drawing of a kind's parts: where each part's label and leader go. */
import { z } from 'zod'
import { Id } from './ids.js'

/** In the drawing's own units: 520 wide; y runs downwards, from 46 (fingertips) to 258 (thumb, outlet). */
export const PartPlace = z.strictObject({
  label: z.string().min(2).max(12).describe('a name short enough for a phone'),
  x: z.number().min(0).max(520).describe('where the leader touches the part'),
  y: z.number().min(46).max(258),
  side: z.enum(['above', 'below']).describe('in which row the label stands'),
})
export type PartPlace = z.infer<typeof PartPlace>

/** One file of `views/partials/drawings/parts/`, beside the drawing of the same name: a place for each part. */
export const PartPlaces = z.record(Id, PartPlace)
export type PartPlaces = z.infer<typeof PartPlaces>
