/** Which rules over findings hold, each pattern of the findings it looks at settled once by the rules engine. */
import type { Conditions } from '../../shared/conditions.js'
import { comparisonsOf } from '../../shared/conditions.js'
import type { FindingState } from '../../shared/diagnosis.js'
import { onceFor, onceForEach } from '../../shared/once-for.js'
import { firedRules } from '../diagnosis/fired-rules.js'

interface Rule {
  readonly id: string
  readonly when: Conditions
}

const settled = onceForEach<Rule, Promise<boolean>>()
const looksAt = onceFor((rule: Rule) => [...new Set(comparisonsOf(rule.when).map(({ fact }) => fact))])

/** @param stateOf how a finding stands; `'unknown'` for one that the kind cannot show */
export async function rulesHolding<R extends Rule>(
  rules: readonly R[],
  stateOf: (finding: string) => FindingState,
): Promise<R[]> {
  const held = await Promise.all(rules.map((rule) => holds(rule, stateOf)))
  return rules.filter((_, k) => held[k])
}

function holds(rule: Rule, stateOf: (finding: string) => FindingState): Promise<boolean> {
  const facts = looksAt(rule)
  const states = facts.map(stateOf)
  return settled(rule, states.join(), () => {
    const now = Object.fromEntries(facts.map((fact, k) => [fact, states[k]!]))
    return firedRules([rule], now).then((fired) => fired.length > 0)
  })
}
