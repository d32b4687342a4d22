/** Stops that no question reaches: a danger that nobody is asked about is not guarded against. Exact. */
import type { Condition } from '../../shared/conditions.js'
import type { FindingState } from '../../shared/diagnosis.js'
import type { KindModel } from '../../server/diagnosis/model.js'
import type { AnswerTable } from '../../server/simulation/answers.js'
import { answerTable } from '../../server/simulation/answers.js'
import { rulesHolding } from '../../server/simulation/holding.js'

export async function unreachedStops(model: KindModel): Promise<string[]> {
  const table = await answerTable(model)
  const unreached: string[] = []
  for (const stop of model.stops) {
    const states = statesFor(stop.when, model, table)
    const held = states ? await rulesHolding([stop], (id) => states.get(id) ?? 'unknown') : []
    if (held.length === 0) unreached.push(stop.id)
  }
  return unreached
}

/** States of findings under which the condition holds, each of which some answer gives; undefined where there are none. */
function statesFor(
  condition: Condition,
  model: KindModel,
  table: AnswerTable,
): Map<string, FindingState> | undefined {
  if ('any' in condition) {
    for (const one of condition.any) {
      const states = statesFor(one, model, table)
      if (states) return states
    }
    return undefined
  }
  if ('all' in condition) {
    const all = new Map<string, FindingState>()
    for (const one of condition.all) {
      const states = statesFor(one, model, table)
      if (!states) return undefined
      for (const [id, state] of states) all.set(id, state)
    }
    return all
  }
  const wanted = condition.operator === 'in' ? condition.value : [condition.value]
  const state = wanted.find((value) => canBe(model, table, condition.fact, value))
  return state === undefined ? undefined : new Map([[condition.fact, state as FindingState]])
}

function canBe(model: KindModel, table: AnswerTable, finding: string, state: unknown): boolean {
  const f = model.findingIndex.get(finding)
  if (f === undefined) return false
  const question = model.questionOf[f]!
  const answers = table.get(question)
  if (!answers) return false
  if (state === 'cant-tell' || state === 'unknown') return true
  const place = model.findingsOfQuestion.get(question)!.indexOf(f)
  return answers.some(({ holds }) => holds[place] === (state === 'yes'))
}
