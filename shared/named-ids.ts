import { z } from 'zod'
import type { IdList } from './ids.js'
import { idLists } from './ids.js'
import { onceFor } from './once-for.js'

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

/** What a schema says of the ids in a value: a list that it is an id of, or where to look further. */
type Place =
  | { readonly list: IdList }
  | { readonly fields: readonly (readonly [key: string, schema: z.core.$ZodType])[] }
  | { readonly element: z.core.$ZodType }
  | { readonly key: z.core.$ZodType; readonly value: z.core.$ZodType }
  | { readonly options: readonly z.core.$ZodType[] }
  | null

/** To ask a schema what it is takes longer than to walk what fits it, so each is asked once. */
const placeOf = onceFor((schema: z.core.$ZodType): Place => {
  const list = idLists.get(schema)?.list
  if (list !== undefined) return { list }
  if (schema instanceof z.ZodObject) return { fields: Object.entries(schema.shape) }
  if (schema instanceof z.ZodArray) return { element: schema.element }
  if (schema instanceof z.ZodRecord) return { key: schema.keyType, value: schema.valueType }
  if (schema instanceof z.ZodUnion) return { options: schema.options }
  if (
    schema instanceof z.ZodLazy ||
    schema instanceof z.ZodOptional ||
    schema instanceof z.ZodNullable ||
    schema instanceof z.ZodDefault ||
    schema instanceof z.ZodReadonly
  )
    return placeOf(schema.unwrap())
  return null
})

function walked(
  schema: z.core.$ZodType,
  value: unknown,
  path: Path,
  other: (named: NamedId) => string,
): unknown {
  if (value === undefined || value === null) return value
  const place = placeOf(schema)
  if (!place) return value
  if ('list' in place) return typeof value === 'string' ? other({ id: value, list: place.list, path }) : value
  if ('fields' in place) {
    const own = value as Readonly<Record<string, unknown>>
    const inner = place.fields.flatMap(([key, field]) =>
      key in own ? [[key, walked(field, own[key], [...path, key], other)] as const] : [],
    )
    return { ...own, ...Object.fromEntries(inner) }
  }
  if ('element' in place)
    return (value as readonly unknown[]).map((it, i) => walked(place.element, it, [...path, i], other))
  if ('options' in place) {
    const fits = place.options.find((option) => z.safeParse(option, value).success)
    return fits ? walked(fits, value, path, other) : value
  }
  const map = new Map<string, unknown>()
  for (const [key, it] of Object.entries(value)) {
    const name = walked(place.key, key, [...path, key], other) as string
    const inner = walked(place.value, it, [...path, key], other)
    const there = map.get(name)
    map.set(name, typeof there === 'number' && typeof inner === 'number' ? there + inner : inner)
  }
  return Object.fromEntries(map)
}
