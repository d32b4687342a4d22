import { z } from 'zod'
import { FindingId, Id, QuestionId } from './ids.js'
import { onceFor } from './once-for.js'

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
const comparisonOver = (fact: typeof Id) =>
  z.discriminatedUnion('operator', [
    z.strictObject({
      fact,
      operator: z.literal('equal'),
      value: z.union([z.string().min(1), z.number(), z.boolean()]),
    }),
    z.strictObject({ fact, operator: z.literal('in'), value: z.array(z.string().min(1)).min(1) }),
    z.strictObject({
      fact,
      operator: z.enum(['lessThan', 'lessThanInclusive', 'greaterThan', 'greaterThanInclusive']),
      value: z.number(),
    }),
  ])

type AnyOrAll = { all: Condition[] } | { any: Condition[] }
export type Comparison = z.infer<ReturnType<typeof comparisonOver>>
export type Condition = Comparison | AnyOrAll

/**
 * What a rule asks of the facts: `{ "all": [...] }` or `{ "any": [...] }`, nested as deep as needed.
 *
 * @param fact what a fact is the name of
 */
function conditionsOver(fact: typeof Id) {
  const nested: z.ZodType<Condition> = z.lazy(() => z.union([comparisonOver(fact), conditions]))
  const all = z.strictObject({ all: z.array(nested).min(1, 'must hold at least one condition') })
  const any = z.strictObject({ any: z.array(nested).min(1, 'must hold at least one condition') })
  const conditions: z.ZodType<AnyOrAll> = z.union([all, any])
  return { conditions, all, any, nested }
}
export type Conditions = AnyOrAll

const overFacts = conditionsOver(Id)
const overQuestions = conditionsOver(QuestionId)
const overFindings = conditionsOver(FindingId)
/** The conditions there are, in parts, for whoever names them in a schema of another language. */
export const conditionParts = [overFacts, overQuestions, overFindings]

/** Over facts that have a list of their own, beside the rule. */
export const Conditions = overFacts.conditions
export const ConditionsOverQuestions = overQuestions.conditions
export const ConditionsOverFindings = overFindings.conditions

/** Every comparison in a condition, however deep it is nested, in the order written. */
export const comparisonsOf = onceFor((condition: Condition): readonly Comparison[] => {
  if ('all' in condition) return condition.all.flatMap(comparisonsOf)
  if ('any' in condition) return condition.any.flatMap(comparisonsOf)
  return [condition]
})
