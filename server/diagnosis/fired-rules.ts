/**
 * Facts → ids of the rules that hold. The only import of the rules engine, and the only thing that matches
 * conditions to facts.
 *
 * A new Engine for each call: the engine keeps its run state on the Engine object, so overlapping runs of
 * one Engine lose rules without an error (see "two runs at once" in the test).
 */
import { Engine, Fact } from 'json-rules-engine'
import type { Conditions } from '../../shared/conditions.js'
import { comparisonsOf } from '../../shared/conditions.js'
import type { Facts } from '../../shared/diagnosis.js'

export interface EngineRule {
  readonly id: string
  readonly when: Conditions
}

/**
 * @param rules ids must be unique
 * @param facts total over the rules: a missing fact rejects the run
 * @returns ids of the rules whose conditions hold, in the order of `rules`
 */
export async function firedRules(rules: readonly EngineRule[], facts: Facts): Promise<string[]> {
  const engine = new Engine()
  const named = new Set(rules.flatMap(({ when }) => comparisonsOf(when).map(({ fact }) => fact)))
  // The engine would hash every fact to remember what it is, which takes longer than to look at it.
  for (const id of named) if (id in facts) engine.addFact(new Fact(id, facts[id], { cache: false }))
  for (const rule of rules) {
    // The engine's type wants a mutable condition; it does not change it.
    const conditions = rule.when as never
    engine.addRule({ name: rule.id, conditions, event: { type: 'holds', params: { id: rule.id } } })
  }
  const { events } = await engine.run()
  const held = new Set(events.map((event) => event.params?.['id'] as string))
  return rules.filter((rule) => held.has(rule.id)).map((rule) => rule.id)
}
