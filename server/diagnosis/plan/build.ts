/** A kind, a situation and a shop → the planning problem and the state it stands in. */
import type { Evidence, FindingState } from '../../../shared/diagnosis.js'
import type { Fix, Relevance, Step } from '../../../shared/knowledge.js'
import type { ShopSettings, Situation } from '../../../shared/situation.js'
import { searchFaultSets } from '../fault-sets.js'
import type { KindModel } from '../model.js'
import type { Observation, Tried } from '../noisy-or.js'
import { setupsOf } from '../policy.js'
import type { PreparedKind } from '../prepare.js'
import { hiddenFindings } from '../prepare.js'
import type { PlanFix, PlanProblem, PlanState, PlanStep } from './problem.js'
import { planProblem } from './problem.js'

/** How many hypotheses the look-ahead carries; the rest is dropped, and the dropped mass stated. */
export const mostHypotheses = 110

export interface PlanInput {
  readonly prepared: PreparedKind
  readonly states: ReadonlyMap<string, FindingState>
  readonly evidence: readonly Evidence[]
  readonly relevance: readonly Relevance[]
  readonly situation: Situation
  readonly shop: ShopSettings
  /** steps and fixes that policy or the bench bars */
  readonly barred: ReadonlySet<string>
  /** weight of all that may be wrong, as scored; without it the dropped mass is told of the sets found */
  readonly trouble?: number
}

/** What ending costs: a service's fee, and days without the tool. */
export const serviceCost = (shop: ShopSettings): number => shop.sendIn + shop.turnaroundDays * shop.dayWithout

export function observationsOf(model: KindModel, evidence: readonly Evidence[]): Observation[] {
  return evidence.map((e) => ({
    finding: model.findingIndex.get(e.finding)!,
    present: e.present,
    after: e.after,
  }))
}

/** Cure chances of the fixes tried, in order, each fix once: the same again brings no new chance. */
export function triedOf(model: KindModel, fixesTried: readonly string[]): Tried[] {
  const none = model.causes.map(() => 0)
  return fixesTried.map((id, k) => (fixesTried.indexOf(id) === k ? (model.curesOf.get(id) ?? none) : none))
}

export function buildPlan(input: PlanInput): { problem: PlanProblem; state: PlanState; dropped: number } {
  const { prepared, situation, shop } = input
  const { model } = prepared
  const { sets, weights, dropped } = hypotheses(input)
  const strengths = model.strengths
  const chance = model.leaks.map((leak, f) => {
    const row = strengths[f]!
    const chances = new Float64Array(sets.length)
    for (let h = 0; h < sets.length; h++) {
      let miss = 1 - leak
      const set = sets[h]!
      for (let k = 0; k < set.length; k++) miss *= 1 - row[set[k]!]!
      chances[h] = 1 - miss
    }
    return chances
  })
  const topics = new Map<string, number>()
  const topic = model.findings.map((f) => {
    if (f.topic === undefined) return -1
    if (!topics.has(f.topic)) topics.set(f.topic, topics.size)
    return topics.get(f.topic)!
  })
  const bit = new Map(model.setups.map((s, k) => [s.id, 1 << k]))
  const maskOf = (ids: readonly string[]) =>
    setupsOf(model, ids).reduce((mask, s) => mask | bit.get(s.id)!, 0)
  const runsWith = model.setups.reduce((mask, s) => (s.withPower ? mask | bit.get(s.id)! : mask), 0)
  const all = (1 << model.setups.length) - 1

  const hiddenFixes = new Set(input.relevance.flatMap((rule) => rule.hides.fixes))
  const service = serviceCost(shop)
  const problem = planProblem({
    causes: model.causes.length,
    sets,
    chance,
    running: model.findings.map((f) => f.running),
    topic,
    effectOfYes: prepared.effectOfYes,
    effectOfNo: prepared.effectOfNo,
    steps: model.steps.map((step) => planStep(model, step, maskOf, runsWith, all, input)),
    fixes: model.fixes.map((fix) => planFix(model, fix, maskOf, input, hiddenFixes)),
    setupCosts: model.setups.map((s) => s.minutes * shop.rate),
    ends: [
      Float64Array.from(sets, (set) =>
        set.some((c) => model.causes[c]!.service === 'retire') ? service + shop.replace : service,
      ),
      Float64Array.from(sets, () => shop.replace),
    ],
    stopCost: Math.min(service, shop.replace),
    truthFixed: false,
  })
  return { problem, state: stateOf(input, problem, weights, maskOf(situation.standing)), dropped }
}

function planStep(
  model: KindModel,
  step: Step,
  maskOf: (ids: readonly string[]) => number,
  runsWith: number,
  all: number,
  { shop, barred }: PlanInput,
): PlanStep {
  const setups = maskOf(step.setups)
  const findings = step.questions.flatMap((q) => [...(model.findingsOfQuestion.get(q.id) ?? [])])
  return {
    findings,
    cost: step.minutes * shop.rate,
    setups,
    // A tool that runs is put together, but for what this step wants off.
    keeps: step.power ? setups & runsWith : all,
    power: step.power,
    order: step.order,
    barred: barred.has(step.id) || step.form === 'danger',
  }
}

function planFix(
  model: KindModel,
  fix: Fix,
  maskOf: (ids: readonly string[]) => number,
  { shop, barred }: PlanInput,
  hidden: ReadonlySet<string>,
): PlanFix {
  const cures = new Map<number, number>()
  for (const [cause, chance] of Object.entries(fix.cures)) {
    const index = model.causeIndex.get(cause)
    if (index !== undefined) cures.set(index, chance)
  }
  const outcome = fix.outcome ? (model.findingsOfQuestion.get(fix.outcome.id)?.[0] ?? -1) : -1
  return {
    cost: fix.minutes * shop.rate + fix.parts.reduce((sum, part) => sum + part.cost, 0),
    setups: maskOf(fix.setups),
    cures,
    outcome,
    order: fix.order,
    barred: barred.has(fix.id) || hidden.has(fix.id),
  }
}

function hypotheses({ prepared, evidence, situation, trouble }: PlanInput) {
  const { model } = prepared
  const found = searchFaultSets(
    model,
    observationsOf(model, evidence),
    triedOf(model, situation.fixesTried),
    { width: 24, depth: 3, negligible: 1e-5 },
  )
  found.sort((a, b) => b.weight - a.weight)
  const total = trouble ?? found.reduce((sum, set) => sum + set.weight, 0)
  const kept = found.slice(0, mostHypotheses)
  const mass = kept.reduce((sum, set) => sum + set.weight, 0)
  const index = new Map(kept.map((set, h) => [set.there.join(','), h]))
  const sets = kept.map((set) => set.there)
  const weights = kept.map((set) => set.weight / mass)
  // Closed under taking causes away, so that a fix always leads to a hypothesis.
  for (let h = 0; h < sets.length; h++) {
    const set = sets[h]!
    if (set.length < 2) continue
    for (const c of set) {
      const rest = set.filter((other) => other !== c)
      const key = rest.join(',')
      if (index.has(key)) continue
      index.set(key, sets.length)
      sets.push(rest)
      weights.push(0)
    }
  }
  return { sets, weights: Float64Array.from(weights), dropped: Math.max(0, 1 - mass / total) }
}

function stateOf(
  { prepared, states, relevance, situation }: PlanInput,
  problem: PlanProblem,
  weights: Float64Array,
  standing: number,
): PlanState {
  const { model } = prepared
  const settled = new Uint8Array(model.findings.length)
  const topicsKnown = new Set<number>()
  model.findings.forEach((finding, f) => {
    const answered = situation.answers[model.questionOf[f]!] !== undefined
    const state = states.get(finding.id)
    if (answered) settled[f] = 1
    if ((state === 'yes' || state === 'no') && problem.topic[f]! >= 0) topicsKnown.add(problem.topic[f]!)
  })
  problem.topic.forEach((topic, f) => topicsKnown.has(topic) && (settled[f] = 1))
  for (const f of hiddenFindings(model, relevance)) settled[f] = 1
  if (relevance.some((rule) => rule.hides.running)) {
    model.findings.forEach((finding, f) => finding.running && (settled[f] = 1))
  }
  const tried = new Uint8Array(model.fixes.length)
  model.fixes.forEach((fix, f) => {
    if (situation.fixesTried.includes(fix.id)) tried[f] = 1
  })
  return {
    weights,
    settled,
    tried,
    cured: new Uint8Array(model.causes.length),
    standing,
    powerBarred: relevance.some((rule) => rule.hides.power),
  }
}
