/** Which rules over findings hold, each pattern of the findings it looks at settled once by the rules engine. */
import type { Conditions } from '../../shared/conditions.js'
import { comparisonsOf } from '../../shared/conditions.js'
import type { FindingState } from '../../shared/diagnosis.js'
import { firedRules } from '../diagnosis/fired-rules.js'

interface Rule {
  readonly id: string
  readonly when: Conditions
}

const settled = new WeakMap<Rule, Map<string, Promise<boolean>>>()
const looksAt = new WeakMap<Rule, readonly string[]>()

/** @param stateOf how a finding stands; `'unknown'` for one that the kind cannot show */
export async function rulesHolding<R extends Rule>(
  rules: readonly R[],
  stateOf: (finding: string) => FindingState,
): Promise<R[]> {
  const held = await Promise.all(rules.map((rule) => holds(rule, stateOf)))
  return rules.filter((_, k) => held[k])
}

function holds(rule: Rule, stateOf: (finding: string) => FindingState): Promise<boolean> {
  let facts = looksAt.get(rule)
  if (!facts) looksAt.set(rule, (facts = [...new Set(comparisonsOf(rule.when).map(({ fact }) => fact))]))
  const states = facts.map(stateOf)
  const key = states.join()
  const known = settled.get(rule) ?? new Map<string, Promise<boolean>>()
  settled.set(rule, known)
  let held = known.get(key)
  if (!held) {
    const now = Object.fromEntries(facts.map((fact, k) => [fact, states[k]!]))
    known.set(key, (held = firedRules([rule], now).then((fired) => fired.length > 0)))
  }
  return held
}
