/** What can be worked out once for a rulebook: the numbers of each kind, and the tables the look-ahead needs. */
import type { FindingState } from '../../shared/diagnosis.js'
import { comparisonsOf } from '../../shared/conditions.js'
import type { Knowledge, Policy, Relevance, Stop } from '../../shared/knowledge.js'
import type { KnownBeforehand, ShopSettings } from '../../shared/situation.js'
import { settledBy } from './findings.js'
import type { KindModel } from './model.js'
import { modelOf } from './model.js'
import type { Person } from './person.js'
import { personOf, personRelearned } from './person.js'
import type { FindingEffect } from './plan/problem.js'
import type { Reach } from './plan/reach.js'
import { reach as asFarAsItPays } from './plan/reach.js'
import { barredIn } from './policy.js'
import { relearned } from './relearned.js'

export interface PreparedKind {
  readonly model: KindModel
  readonly person: Person
  /** by finding: what it changes when it is known to be true, false */
  readonly effectOfYes: readonly FindingEffect[]
  readonly effectOfNo: readonly FindingEffect[]
  /** how far its plans look */
  readonly reach: Reach
  /** what policy bars, by shop and whether a safety test is spared; computed when first asked for */
  readonly barred: (shop: ShopSettings, safetyTestSpared?: boolean) => Promise<ReadonlyMap<string, Policy>>
}

export interface Prepared {
  readonly knowledge: Knowledge
  readonly kinds: ReadonlyMap<string, PreparedKind>
}

/** @param pause called again and again on the way, so that whoever has other work can let it through */
export async function prepare(
  knowledge: Knowledge,
  pause: () => Promise<void> = () => Promise.resolve(),
  reach: Reach = asFarAsItPays,
): Promise<Prepared> {
  const kinds = new Map<string, PreparedKind>()
  for (const { id } of knowledge.kinds) {
    await pause()
    const model = modelOf(knowledge, id)
    const tables = new Map<string, Promise<ReadonlyMap<string, Policy>>>()
    kinds.set(id, {
      model,
      person: personOf(knowledge, model),
      reach,
      effectOfYes: await effectsOf(model, 'yes', pause),
      effectOfNo: await effectsOf(model, 'no', pause),
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

const noEffect: FindingEffect = {
  stops: false,
  hidesRunning: false,
  hidesPower: false,
  hidesFindings: [],
  hidesFixes: [],
}

/**
 * The kind as this shop knows it beforehand: figures that its confirmed cases have moved, then prior odds multiplied;
 * everything else is the rulebook's.
 *
 * @throws RangeError for an unknown kind
 */
export function kindFor(
  prepared: Prepared,
  { kind: id, odds = {}, learned }: KnownBeforehand & { readonly kind: string },
): PreparedKind {
  const asInRulebook = kindOf(prepared, id)
  const kind = learned
    ? {
        ...asInRulebook,
        model: relearned(asInRulebook.model, learned),
        person: personRelearned(asInRulebook.person, learned),
      }
    : asInRulebook
  const { model } = kind
  if (!model.causes.some((cause) => odds[cause.id] !== undefined)) return kind
  const priors = model.causes.map((cause, i) => {
    const before = model.priors[i]!
    const times = odds[cause.id] ?? 1
    return (before * times) / (1 - before + before * times)
  })
  return { ...kind, model: { ...model, priors } }
}

/**
 * Runs the engine once for each finding with nothing else known: what that alone stops, hides or bars. A rule that
 * holds while nothing at all is known is no doing of the finding.
 */
async function effectsOf(
  model: KindModel,
  state: FindingState,
  pause: () => Promise<void>,
): Promise<FindingEffect[]> {
  const before = new Set((await settledBy(model, new Map())).relevance)
  const effects: FindingEffect[] = []
  for (const finding of model.findings) {
    // what a rule that does not look at the finding says stays as it was, so the engine need not be asked
    const looks = (rule: Stop | Relevance) => comparisonsOf(rule.when).some(({ fact }) => fact === finding.id)
    const own = { ...model, stops: model.stops.filter(looks), relevance: model.relevance.filter(looks) }
    if (own.stops.length + own.relevance.length === 0) {
      effects.push(noEffect)
      continue
    }
    await pause()
    const { stops, relevance } = await settledBy(own, new Map([[finding.id, state]]))
    const fresh = relevance.filter((rule) => !before.has(rule))
    const hidden = hiddenFixes(model, fresh)
    effects.push({
      stops: stops.some((stop) => stop.grade === 'set-aside'),
      hidesRunning: fresh.some((rule) => rule.hides.running),
      hidesPower: fresh.some((rule) => rule.hides.power),
      hidesFindings: hiddenFindings(model, fresh),
      hidesFixes: model.fixes.flatMap(({ id }, f) => (hidden.has(id) ? [f] : [])),
    })
  }
  return effects
}

/** Fixes that these rules hide; where nothing may run, those that are done on a running tool too. */
export function hiddenFixes(model: KindModel, relevance: readonly Relevance[]): ReadonlySet<string> {
  const unrun = relevance.some((rule) => rule.hides.power)
  return new Set([
    ...relevance.flatMap((rule) => rule.hides.fixes),
    ...model.fixes.flatMap(({ id, power }) => (unrun && power ? [id] : [])),
  ])
}

/** Findings whose questions these rules hide. */
export function hiddenFindings(model: KindModel, relevance: readonly Relevance[]): number[] {
  const questions = new Set(relevance.flatMap((rule) => rule.hides.questions))
  return model.questionOf.flatMap((question, f) => (questions.has(question) ? [f] : []))
}
