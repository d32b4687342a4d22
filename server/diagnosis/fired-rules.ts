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
import { onceFor } from '../../shared/once-for.js'
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
  const decided = rules.map(({ when }) => decisionsOn(when).get(valuesOf(when, facts)))
  const open = rules.filter((_, r) => decided[r] === undefined)
  if (open.length === 0) return rules.flatMap(({ id }, r) => (decided[r] ? [id] : []))
  const held = await runEngine(open, facts)
  for (const { id, when } of open) remember(decisionsOn(when), valuesOf(when, facts), held.has(id))
  return rules.flatMap(({ id }, r) => ((decided[r] ?? held.has(id)) ? [id] : []))
}

async function runEngine(rules: readonly EngineRule[], facts: Facts): Promise<ReadonlySet<string>> {
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
  return new Set(events.map((event) => event.params?.['id'] as string))
}

/**
 * What the engine decided on a condition, by the values of the facts it names: it copies every rule at every run,
 * and nearly all of them look at the same values as the last time.
 */
type Decisions = Map<string, boolean>
const decisionsOn = onceFor((_: Conditions): Decisions => new Map())

const valuesOf = (when: Conditions, facts: Facts): string => {
  const named = comparisonsOf(when)
  return named.length === 1
    ? JSON.stringify(facts[named[0]!.fact])
    : JSON.stringify(named.map(({ fact }) => facts[fact]))
}

/** Readings are numbers, of which there are many. */
const most = 500

function remember(decisions: Decisions, values: string, holds: boolean): void {
  if (decisions.size >= most) decisions.clear()
  decisions.set(values, holds)
}
