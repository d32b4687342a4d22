/**
 * Can a condition hold at all? Judged from the values that its facts can take, without any answers:
 * real answers are matched by the rules engine alone.
 */
import type { Comparison, Condition } from '../../shared/conditions.js'
import type { FactValue } from '../../shared/diagnosis.js'

/** What a fact can be: one of some values, or any number from `min` to `max`. */
export type Domain =
  | { readonly values: readonly FactValue[] }
  | { readonly min: number; readonly max: number }

/**
 * Whether some choice of values makes the condition true.
 *
 * @param domainOf what each fact can be; undefined = anything, so that an unknown fact is one problem, not two
 */
export function canHold(condition: Condition, domainOf: (fact: string) => Domain | undefined): boolean {
  return alternatives(condition).some((comparisons) => canHoldTogether(comparisons, domainOf))
}

/** The condition as "one of these lists, whole": its disjunctive normal form. */
function alternatives(condition: Condition): Comparison[][] {
  if ('any' in condition) return condition.any.flatMap(alternatives)
  if (!('all' in condition)) return [[condition]]
  return condition.all
    .map(alternatives)
    .reduce<Comparison[][]>((lists, next) => lists.flatMap((a) => next.map((b) => [...a, ...b])), [[]])
}

function canHoldTogether(
  comparisons: readonly Comparison[],
  domainOf: (fact: string) => Domain | undefined,
): boolean {
  const byFact = groupByFact(comparisons)
  return [...byFact].every(([fact, its]) => {
    const domain = domainOf(fact)
    if (domain === undefined) return true
    return 'values' in domain
      ? domain.values.some((value) => its.every((it) => holds(it, value)))
      : meets(its, domain)
  })
}

function groupByFact(comparisons: readonly Comparison[]): Map<string, Comparison[]> {
  const byFact = new Map<string, Comparison[]>()
  for (const it of comparisons) byFact.set(it.fact, [...(byFact.get(it.fact) ?? []), it])
  return byFact
}

function holds(comparison: Comparison, value: FactValue): boolean {
  switch (comparison.operator) {
    case 'equal':
      return value === comparison.value
    case 'in':
      return typeof value === 'string' && comparison.value.includes(value)
    case 'lessThan':
      return typeof value === 'number' && value < comparison.value
    case 'lessThanInclusive':
      return typeof value === 'number' && value <= comparison.value
    case 'greaterThan':
      return typeof value === 'number' && value > comparison.value
    case 'greaterThanInclusive':
      return typeof value === 'number' && value >= comparison.value
  }
}

/** Every comparison splits the line at its value only, so the ends, the splits and what lies between suffice. */
function meets(comparisons: readonly Comparison[], { min, max }: { min: number; max: number }): boolean {
  const splits = comparisons.map((it) => it.value).filter((it) => typeof it === 'number')
  const marks = [min, max, ...splits].filter((it) => it >= min && it <= max).sort((a, b) => a - b)
  const between = marks.slice(1).map((mark, i) => (mark + marks[i]!) / 2)
  return [...marks, ...between].some((value) => comparisons.every((it) => holds(it, value)))
}
