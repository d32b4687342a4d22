/** What can be worked out once for a rulebook: the numbers of each kind, and the tables the look-ahead needs. */
import type { FindingState } from '../../shared/diagnosis.js'
import type { Knowledge, Policy, Relevance } from '../../shared/knowledge.js'
import type { ShopSettings } from '../../shared/situation.js'
import { settledBy } from './findings.js'
import type { KindModel } from './model.js'
import { modelOf } from './model.js'
import type { FindingEffect } from './plan/problem.js'
import { barredIn } from './policy.js'

export interface PreparedKind {
  readonly model: KindModel
  /** by finding: what it changes when it is known to be true, false */
  readonly effectOfYes: readonly FindingEffect[]
  readonly effectOfNo: readonly FindingEffect[]
  /** what policy bars, by shop and whether a safety test is spared; computed when first asked for */
  readonly barred: (shop: ShopSettings, safetyTestSpared?: boolean) => Promise<ReadonlyMap<string, Policy>>
}

export interface Prepared {
  readonly knowledge: Knowledge
  readonly kinds: ReadonlyMap<string, PreparedKind>
}

export async function prepare(knowledge: Knowledge): Promise<Prepared> {
  const kinds = new Map<string, PreparedKind>()
  for (const { id } of knowledge.kinds) {
    const model = modelOf(knowledge, id)
    const tables = new Map<string, Promise<ReadonlyMap<string, Policy>>>()
    kinds.set(id, {
      model,
      effectOfYes: await effectsOf(model, 'yes'),
      effectOfNo: await effectsOf(model, 'no'),
      barred: ({ skill, canSafetyTest, inWarranty, partsToBeHad }, safetyTestSpared = false) => {
        const key = `${skill}|${canSafetyTest}|${inWarranty}|${partsToBeHad}|${safetyTestSpared}`
        let table = tables.get(key)
        if (!table) {
          const figures = { skill, canSafetyTest, inWarranty, partsToBeHad }
          tables.set(key, (table = barredIn(knowledge, model, figures, safetyTestSpared)))
        }
        return table
      },
    })
  }
  return { knowledge, kinds }
}

/** π of each cause of a kind, as scored. */
export function priorOf(prepared: Prepared, kind: string): ReadonlyMap<string, number> {
  const { model } = kindOf(prepared, kind)
  return new Map(model.causes.map((cause, i) => [cause.id, model.priors[i]!]))
}

/** @throws RangeError for an unknown kind */
export function kindOf(prepared: Prepared, kind: string): PreparedKind {
  const found = prepared.kinds.get(kind)
  if (!found) throw new RangeError(`there is no kind ${kind} in the rulebook`)
  return found
}

/** Runs the engine once for each finding with nothing else known: what that alone stops, hides or bars. */
async function effectsOf(model: KindModel, state: FindingState): Promise<FindingEffect[]> {
  const effects: FindingEffect[] = []
  for (const finding of model.findings) {
    const { stops, relevance } = await settledBy(model, new Map([[finding.id, state]]))
    effects.push({
      stops: stops.some((stop) => stop.grade === 'set-aside'),
      hidesRunning: relevance.some((rule) => rule.hides.running),
      hidesPower: relevance.some((rule) => rule.hides.power),
      hidesFindings: hiddenFindings(model, relevance),
    })
  }
  return effects
}

/** Findings whose questions these rules hide. */
export function hiddenFindings(model: KindModel, relevance: readonly Relevance[]): number[] {
  const questions = new Set(relevance.flatMap((rule) => rule.hides.questions))
  return model.questionOf.flatMap((question, f) => (questions.has(question) ? [f] : []))
}
