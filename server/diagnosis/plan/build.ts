/** A kind, a situation and a shop → the planning problem and the state it stands in. */
import type { Evidence, FindingState } from '../../../shared/diagnosis.js'
import type { Fix, Relevance, Setup, Step } from '../../../shared/knowledge.js'
import { needsParts } from '../../../shared/work-files.js'
import type { ShopSettings, Situation } from '../../../shared/situation.js'
import { onceFor } from '../../../shared/once-for.js'
import { setupsNeeded } from '../../../shared/setups-needed.js'
import { likeliest, searchFaultSets } from '../fault-sets.js'
import type { KindModel } from '../model.js'
import { mustNotRun } from '../gates.js'
import { historyOf } from '../model.js'
import type { Person } from '../person.js'
import { tellChances } from '../person.js'
import type { PreparedKind } from '../prepare.js'
import { hiddenFindings, hiddenFixes } from '../prepare.js'
import type { PlanFix, PlanProblem, PlanState, PlanStep } from './problem.js'
import { planProblem } from './problem.js'

/** How many hypotheses the look-ahead carries; the rest is dropped, and the dropped mass stated. */
const mostHypotheses = 110

/** Questions on one screen. */
const mostAsked = 4

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

/** What a set of faults means to whoever pays for the way out. */
export interface Outlook {
  /** is it of the sort that a service can usually mend? */
  readonly mends: boolean
  /** would a warranty usually pay for it? */
  readonly covered: boolean
  /** share of its used-up life that the tool gets back when it is mended */
  readonly renews: number
}

const usual: Outlook = { mends: true, covered: true, renews: 0 }

/** @param partsToBeHad without parts a service fixes no more than what needs none of this very tool */
export const outlookOf = (model: KindModel, set: readonly number[], partsToBeHad: boolean): Outlook => ({
  mends: set.every((c) => {
    const { id, service } = model.causes[c]!
    return (
      service === 'mend' && (partsToBeHad || model.fixes.some((fix) => fix.cures[id] && !needsParts(fix)))
    )
  }),
  covered: set.every((c) => model.causes[c]!.warranty === 'seller'),
  renews: set.reduce((most, c) => Math.max(most, model.causes[c]!.renews), 0),
})

/** What replacing costs, set against mending: more where mending would give the tool some of its life back. */
const replaceCost = ({ replace, replaceRenewed }: ShopSettings, renews: number): number =>
  replace + renews * ((replaceRenewed ?? replace) - replace)

/**
 * What sending in costs: fee, carriage and days without the tool; money. What a service cannot mend comes back, and a
 * new tool is bought after all.
 */
export function serviceCost(shop: ShopSettings, { mends, covered, renews } = usual): number {
  const away = shop.turnaroundDays * shop.dayWithout
  const fixed = covered ? shop.sendIn : (shop.sendInPaid ?? shop.sendIn)
  const inVain = (shop.sendInVain ?? shop.sendIn) + replaceCost(shop, renews)
  const share = mends ? shop.serviceMends : 0
  return away + share * fixed + (1 - share) * inVain
}

/** Ways to end now, in the order of the problem's `ends`. */
export const waysToEnd = ['send-in', 'retire'] as const

/**
 * @param found the hypotheses, which prices do not change: whoever plans one case at other prices finds them once
 * @returns the problem, the state it stands in, and the share of what may be wrong that was dropped, in [0, 1]
 */
export function buildPlan(
  input: PlanInput,
  found = hypotheses(input),
): { problem: PlanProblem; state: PlanState; dropped: number } {
  const { prepared, situation, shop } = input
  const { model } = prepared
  const { sets, weights, dropped } = found
  const { masks, running, topic, excludes } = ofKind(model)
  const unrun = mustNotRun(model, situation, input.barred)
  const hidden = unrun ? new Set(model.fixes.map(({ id }) => id)) : hiddenFixes(model, input.relevance)
  const costTo: Record<(typeof waysToEnd)[number], (set: readonly number[]) => number> = {
    'send-in': (set) => shop.teaches + serviceCost(shop, outlookOf(model, set, shop.partsToBeHad)),
    retire: (set) => shop.teaches + replaceCost(shop, outlookOf(model, set, shop.partsToBeHad).renews),
  }
  const problem = planProblem({
    causes: model.causes.length,
    sets,
    chance: chancesOf(model, sets),
    tell: tellOf(input),
    mostAsked: shop.screens ? mostAsked : Infinity,
    running,
    topic,
    excludes,
    effectOfYes: prepared.effectOfYes,
    effectOfNo: prepared.effectOfNo,
    steps: model.steps.map((step) => planStep(prepared, step, masks, input)),
    fixes: model.fixes.map((fix) => planFix(prepared, fix, masks, input, hidden)),
    setupCosts: model.setups.map((s) => s.minutes * shop.rate),
    ends: waysToEnd.map((way) => Float64Array.from(sets, costTo[way])),
    stopCost: Math.min(serviceCost(shop), shop.replace),
    truthFixed: false,
    reach: prepared.reach,
  })
  const state = stateOf(input, problem, weights, masks.of(situation.standing))
  return { problem, state: unrun ? { ...state, powerBarred: true } : state, dropped }
}

/** By finding: P(the person can tell); 1 where no page is read, and for what only a fix shows. */
function tellOf({ prepared: { model, person }, situation, shop }: PlanInput): Float64Array {
  const chances = shop.screens ? tellChances(person, model, situation) : undefined
  return Float64Array.from(model.questionOf, (question) => chances?.get(question) ?? 1)
}

/** Money of a screen that shows so many words, its fixed price included; 0 where no page is read. */
function screenCost({ screens, rate }: ShopSettings, words: number): number {
  return screens ? (screens.minutes + words / screens.wordsAMinute) * rate : 0
}

/** Money of the mean line of a step, read and answered. What sound answers, one tap writes in for all lines together. */
function lineCost({ screens, rate }: ShopSettings, { words }: Person, { questions }: Step): number {
  if (!screens) return 0
  const byHand = questions.filter(({ heard }) => !heard)
  const read = byHand.reduce((sum, { id }) => sum + words.get(id)!, 0)
  return (
    ((read / screens.wordsAMinute + (byHand.length * screens.secondsALine) / 60) / questions.length) * rate
  )
}

/** Money of the tap that takes over what was heard; 0 where a step asks for nothing that is heard. */
const tapCost = ({ screens, rate }: ShopSettings, { questions }: Step): number =>
  screens && questions.some(({ heard }) => heard) ? (screens.secondsALine / 60) * rate : 0

/** What hangs on no case. */
const ofKind = onceFor((model: KindModel) => ({
  masks: setupMasks(model),
  running: model.findings.map((f) => f.running),
  topic: topicNumbers(model),
  excludes: model.findings.map((_, f) =>
    model.findingsOfQuestion.get(model.questionOf[f]!)!.filter((other) => other !== f),
  ),
}))

/** By finding: P(true | hypothesis) for each hypothesis. */
function chancesOf(model: KindModel, sets: readonly (readonly number[])[]): Float64Array[] {
  return model.leaks.map((leak, f) => {
    const row = model.strengths[f]!
    const chances = new Float64Array(sets.length)
    for (let h = 0; h < sets.length; h++) {
      let miss = 1 - leak
      const set = sets[h]!
      for (let k = 0; k < set.length; k++) miss *= 1 - row[set[k]!]!
      chances[h] = 1 - miss
    }
    return chances
  })
}

/** By finding: the number of its topic, or -1. */
function topicNumbers(model: KindModel): number[] {
  const topics = [...new Set(model.findings.map((f) => f.topic))].filter((topic) => topic !== undefined)
  const numbers = new Map(topics.map((topic, k) => [topic, k]))
  return model.findings.map((f) => (f.topic === undefined ? -1 : numbers.get(f.topic)!))
}

/** Set-ups as bits of a mask. */
interface SetupMasks {
  /** these set-ups with their own needs */
  of(ids: readonly string[]): number
  /** those that may stand while the tool runs */
  readonly withPower: number
  readonly all: number
}

function setupMasks(model: KindModel): SetupMasks {
  const bit = new Map(model.setups.map((setup, k) => [setup.id, 1 << k]))
  const maskOf = (setups: readonly Setup[]) => setups.reduce((mask, { id }) => mask | bit.get(id)!, 0)
  return {
    of: (ids) => maskOf(setupsNeeded(model.setups, ids)),
    withPower: maskOf(model.setups.filter((setup) => setup.withPower)),
    all: maskOf(model.setups),
  }
}

function planStep(
  { model, effectOfYes, person }: PreparedKind,
  step: Step,
  masks: SetupMasks,
  { shop, barred }: PlanInput,
): PlanStep {
  const setups = masks.of(step.setups)
  const asked = step.questions.flatMap((q) => [...(model.findingsOfQuestion.get(q.id) ?? [])])
  // what decides whether others can be seen at all is split first
  const deciding = (f: number): boolean => effectOfYes[f]!.hidesRunning
  const findings = [...asked.filter(deciding), ...asked.filter((f) => !deciding(f))]
  return {
    findings,
    cost: step.minutes * shop.rate + screenCost(shop, person.words.get(step.id)!) + tapCost(shop, step),
    line: step.form === 'danger' ? 0 : lineCost(shop, person, step),
    setups,
    // A tool that runs is put together, but for what this step wants off.
    keeps: step.power ? setups & masks.withPower : masks.all,
    power: step.power,
    order: step.order,
    barred: barred.has(step.id) || step.form === 'danger',
  }
}

function planFix(
  { model, person }: PreparedKind,
  fix: Fix,
  masks: SetupMasks,
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
    cost: fix.minutes * shop.rate + partsCost(fix, shop) + screenCost(shop, person.words.get(fix.id)!),
    setups: masks.of(fix.setups),
    cures,
    outcome,
    order: fix.order,
    barred: barred.has(fix.id) || hidden.has(fix.id),
  }
}

/** Parts, and the days without the tool until they are here. */
function partsCost(fix: Fix, shop: ShopSettings): number {
  const waiting = needsParts(fix) ? shop.partDays * shop.dayWithout : 0
  return fix.parts.reduce((sum, part) => sum + part.cost, waiting)
}

/** The likeliest sets of causes that may be there now. */
export function hypotheses({ prepared, evidence, situation, trouble }: PlanInput) {
  const { model } = prepared
  const { observations, tried } = historyOf(model, evidence, situation.fixesTried)
  const found = searchFaultSets(model, observations, tried, likeliest)
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
