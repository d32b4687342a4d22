import { z } from 'zod'
import type { IdList } from './ids.js'
import { idLists } from './ids.js'

/** An id where something names it: `path` leads there from the top; a key of a map is the last of its path. */
export interface NamedId {
  readonly id: string
  readonly list: IdList
  readonly path: readonly (string | number)[]
}

/**
 * The value with other ids in the places that its schema declares to hold ids. Where two keys of a map become one,
 * their numbers are added up, and of anything else the later stays.
 *
 * @param value fits the schema
 * @param other what stands there instead; the same id to leave it
 */
export function withIds<Value>(schema: z.ZodType, value: Value, other: (named: NamedId) => string): Value {
  return walked(schema, value, [], other) as Value
}

/** Every id that a value names, in the order in which it stands there. */
export function idsNamed(schema: z.ZodType, value: unknown): NamedId[] {
  const found: NamedId[] = []
  withIds(schema, value, (named) => {
    found.push(named)
    return named.id
  })
  return found
}

type Path = NamedId['path']

function walked(
  schema: z.core.$ZodType,
  value: unknown,
  path: Path,
  other: (named: NamedId) => string,
): unknown {
  if (value === undefined || value === null) return value
  const list = idLists.get(schema)?.list
  if (list !== undefined && typeof value === 'string') return other({ id: value, list, path })
  if (schema instanceof z.ZodObject) {
    const own = value as Readonly<Record<string, unknown>>
    const inner = Object.entries(schema.shape).flatMap(([key, field]) =>
      key in own ? [[key, walked(field, own[key], [...path, key], other)] as const] : [],
    )
    return { ...own, ...Object.fromEntries(inner) }
  }
  if (schema instanceof z.ZodArray)
    return (value as readonly unknown[]).map((it, i) => walked(schema.element, it, [...path, i], other))
  if (schema instanceof z.ZodRecord) {
    const map = new Map<string, unknown>()
    for (const [key, it] of Object.entries(value)) {
      const name = walked(schema.keyType, key, [...path, key], other) as string
      const inner = walked(schema.valueType, it, [...path, key], other)
      const there = map.get(name)
      map.set(name, typeof there === 'number' && typeof inner === 'number' ? there + inner : inner)
    }
    return Object.fromEntries(map)
  }
  if (schema instanceof z.ZodUnion) {
    const fits = schema.options.find((option) => z.safeParse(option, value).success)
    return fits ? walked(fits, value, path, other) : value
  }
  if (schema instanceof z.ZodLazy) return walked(schema.unwrap(), value, path, other)
  if (
    schema instanceof z.ZodOptional ||
    schema instanceof z.ZodNullable ||
    schema instanceof z.ZodDefault ||
    schema instanceof z.ZodReadonly
  )
    return walked(schema.unwrap(), value, path, other)
  return value
}
