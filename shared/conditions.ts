import { z } from 'zod'
import { Id } from './ids.js'

/**
 * The part of the rules engine's condition language that `rules/` may use.
 *
 * Only positive operators: `notEqual`, `notIn` and `not` hold for a fact that nobody has given, and
 * "not asked" must never count as evidence. Exactly one of `all` and `any`, and never an empty list:
 * the engine lets an empty list fire, and with both keys it ignores one of them.
 *
 * No fact is ever true or false. A boolean passes here all the same, so that the rulebook check can answer it with
 * the values that the fact has.
 */
const Comparison = z.discriminatedUnion('operator', [
  z.strictObject({
    fact: Id,
    operator: z.literal('equal'),
    value: z.union([z.string().min(1), z.number(), z.boolean()]),
  }),
  z.strictObject({ fact: Id, operator: z.literal('in'), value: z.array(z.string().min(1)).min(1) }),
  z.strictObject({
    fact: Id,
    operator: z.enum(['lessThan', 'lessThanInclusive', 'greaterThan', 'greaterThanInclusive']),
    value: z.number(),
  }),
])

type AnyOrAll = { all: Condition[] } | { any: Condition[] }
export type Comparison = z.infer<typeof Comparison>
export type Condition = Comparison | AnyOrAll

const Nested: z.ZodType<Condition> = z.lazy(() => z.union([Comparison, Conditions]))

/** What a rule asks of the facts: `{ "all": [...] }` or `{ "any": [...] }`, nested as deep as needed. */
export const Conditions: z.ZodType<AnyOrAll> = z.union([
  z.strictObject({ all: z.array(Nested).min(1, 'must hold at least one condition') }),
  z.strictObject({ any: z.array(Nested).min(1, 'must hold at least one condition') }),
])
export type Conditions = AnyOrAll

/** Every comparison in a condition, however deep it is nested, in the order written. */
export function comparisonsOf(condition: Condition): Comparison[] {
  if ('all' in condition) return condition.all.flatMap(comparisonsOf)
  if ('any' in condition) return condition.any.flatMap(comparisonsOf)
  return [condition]
}
