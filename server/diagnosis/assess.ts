/** The arrows composed: answers → facts → rules → findings → posterior → next step. Returns every stage. */
import type { Assessment, CauseBelief, CauseView, Evidence } from '../../shared/diagnosis.js'
import type { Policy } from '../../shared/knowledge.js'
import type { ShopSettings, Situation } from '../../shared/situation.js'
import { doubtOf } from './doubt.js'
import { findingsFrom } from './findings.js'
import { unsettledIn } from './gates.js'
import { lazily } from './lazily.js'
import type { KindModel } from './model.js'
import { historyOf } from './model.js'
import { nextStep } from './plan.js'
import type { Weights } from './posterior.js'
import { weigh } from './posterior.js'
import { barredByTrying } from './policy.js'
import type { Prepared } from './prepare.js'
import { kindFor } from './prepare.js'
import { speakingAgainst, speakingFor, weightsOfEvidence } from './weights.js'

export type { Prepared } from './prepare.js'
export { prepare } from './prepare.js'

const notHere = 'It cannot be done here.'

/**
 * @param situation ids must be of the rulebook (the doors check that); unknown ones are ignored
 * @throws RangeError for an unknown kind
 */
export async function assess(
  prepared: Prepared,
  situation: Situation,
  shop: ShopSettings,
): Promise<Assessment> {
  const kind = kindFor(prepared, situation)
  const { model } = kind
  const findings = await findingsFrom(model, situation)
  const spared = findings.relevance.some((rule) => rule.hides.safetyTest)
  const policy = new Map([
    ...(await kind.barred(shop, spared)),
    ...(await barredByTrying(prepared.knowledge, model, shop, situation.fixesTried, spared)),
  ])
  const barred = new Map([...policy].map(([id, rule]) => [id, rule.because]))
  for (const id of situation.cannotDo) if (!barred.has(id)) barred.set(id, notHere)

  const { observations, tried } = historyOf(model, findings.evidence, situation.fixesTried)
  const weights = weigh(model, observations, tried)
  const beliefs = beliefsFrom(model, weights)
  const next = lazily(() =>
    nextStep({
      prepared: kind,
      states: findings.states,
      evidence: findings.evidence,
      relevance: findings.relevance,
      stops: findings.stops,
      causes: beliefs,
      situation,
      shop,
      barred: new Set(barred.keys()),
      ...(weights.exact ? { trouble: weights.trouble } : {}),
    }),
  )
  const doubt = lazily(() => doubtOf(model, observations, tried, weights, situation.sure ?? []))
  const reasons = lazily(() => weightsOfEvidence(model, findings.evidence, observations, tried, weights))
  return {
    kind: situation.kind,
    findings: findings.states,
    evidence: findings.evidence,
    fired: { ...findings.fired, policy: policyIds(prepared, policy) },
    stops: findings.stops,
    unsettled: unsettledIn(model, situation),
    hidden: hiddenQuestions(model, findings),
    barred,
    causes: beliefs.map((belief) => view(model, belief, reasons)),
    exact: weights.exact,
    get doubt() {
      return doubt()
    },
    get next() {
      return next()
    },
  }
}

/** Scoring alone, without a plan: for tests, studies and benchmarks. */
export async function score(
  prepared: Prepared,
  situation: Situation,
): Promise<{ evidence: readonly Evidence[]; causes: readonly CauseBelief[]; exact: boolean }> {
  const { model } = kindFor(prepared, situation)
  const { evidence } = await findingsFrom(model, situation)
  const { observations, tried } = historyOf(model, evidence, situation.fixesTried)
  const weights = weigh(model, observations, tried)
  return { evidence, causes: beliefsFrom(model, weights), exact: weights.exact }
}

/** Normalised to "in trouble"; likeliest first, rulebook order among equals. */
function beliefsFrom(model: KindModel, weights: Weights): CauseBelief[] {
  return model.causes
    .map((cause, i) => ({
      id: cause.id,
      probability: Math.min(1, weights.there[i]! / weights.trouble),
      sole: Math.min(1, weights.sole[i]! / weights.trouble),
    }))
    .sort((a, b) => b.probability - a.probability)
}

/** For and against are worked out when somebody reads them: most readers want the ranking only. */
function view(
  model: KindModel,
  belief: CauseBelief,
  reasons: () => ReturnType<typeof weightsOfEvidence>,
): CauseView {
  const index = model.causeIndex.get(belief.id)!
  return {
    ...belief,
    name: model.causes[index]!.name,
    get for() {
      return speakingFor(reasons()[index]!)
    },
    get against() {
      return speakingAgainst(reasons()[index]!)
    },
  }
}

function policyIds({ knowledge }: Prepared, barredBy: ReadonlyMap<string, Policy>): string[] {
  const barring = new Set(barredBy.values())
  return knowledge.policy.filter((rule) => barring.has(rule)).map((rule) => rule.id)
}

function hiddenQuestions(
  model: KindModel,
  { states, relevance }: Awaited<ReturnType<typeof findingsFrom>>,
): ReadonlyMap<string, string> {
  const hidden = new Map<string, string>()
  for (const rule of relevance) {
    for (const question of rule.hides.questions) hidden.set(question, rule.because)
    if (!rule.hides.running) continue
    model.findings.forEach((finding, f) => {
      const question = model.questionOf[f]!
      if (finding.running && states.get(finding.id) === 'unknown' && !hidden.has(question)) {
        hidden.set(question, rule.because)
      }
    })
  }
  return hidden
}
