/**
 * What is the same for several kinds of tool but for a few fields: an entry says what differs under `forKind`, and
 * `bookOf` merges it in. So "plug out" can be "off the charger, switch locked" on a cordless tool, in one file.
 */
import { z } from 'zod'
import { KindId } from './ids.js'

/**
 * The schema of `forKind`: for a kind, any of the named fields of the entry, each replacing the entry's own whole.
 *
 * @param shape  the fields of the entry
 * @param fields those that may differ between kinds
 */
export function differing<Shape extends z.ZodRawShape, Field extends keyof Shape & string>(
  shape: Shape,
  fields: readonly Field[],
) {
  // a default would fill a field that the kind does not change, and so change it
  const bare = (field: Field) => {
    const schema = shape[field]
    return schema instanceof z.ZodDefault ? schema.unwrap() : schema
  }
  const may: Record<string, z.ZodType> = Object.fromEntries(
    fields.map((field) => [field, z.optional(bare(field) as z.ZodType)]),
  )
  return z
    .record(KindId, z.strictObject(may as { [F in Field]: z.ZodOptional<Shape[F]> }))
    .optional()
    .describe('what differs for a kind: its fields stand in place of those above')
}
