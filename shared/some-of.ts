import { z } from 'zod'

type Shape = Readonly<Record<string, z.ZodType>>
type Some<Fields extends Shape> = {
  [F in keyof Fields]: z.ZodOptional<
    Fields[F] extends z.ZodDefault<infer Inner extends z.ZodType> ? Inner : Fields[F]
  >
}

/** The same fields, each of which may be left out and then is left out: no default steps in. Descriptions stay. */
export function someOf<Fields extends Shape>(
  whole: z.ZodObject<Fields, z.core.$strict>,
): z.ZodObject<Some<Fields>, z.core.$strict> {
  const fields = Object.entries(whole.shape).map(([name, schema]) => {
    const bare = (schema instanceof z.ZodDefault ? (schema.unwrap() as z.ZodType) : schema).optional()
    return [name, schema.description === undefined ? bare : bare.describe(schema.description)]
  })
  return z.strictObject(Object.fromEntries(fields) as Some<Fields>)
}
