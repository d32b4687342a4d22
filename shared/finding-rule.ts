/** What a finding's rule says of questions and causes. */
import type { Conditions } from './conditions.js'
import { comparisonsOf } from './conditions.js'
import type { Finding } from './knowledge.js'

/** What a finding is over where its file does not say: its own question, answered with yes. */
export const ownYes = (id: string): Conditions => ({
  all: [{ fact: id, operator: 'equal', value: 'yes' }],
})

/** The one question a finding is over; undefined when its `when` names several (the rulebook check refuses that). */
export function questionOf(finding: Finding): string | undefined {
  const facts = new Set(comparisonsOf(finding.when).map((it) => it.fact))
  return facts.size === 1 ? [...facts][0] : undefined
}

/** P(finding true | this cause alone) in a kind, in (0, 1); undefined where it does not point to the cause. */
export function strengthIn(finding: Finding, cause: string, kind: string): number | undefined {
  const strength = finding.strengths[cause]
  return typeof strength === 'object' ? strength[kind] : strength
}
