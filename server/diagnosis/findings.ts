/** Rules that hold → findings known true or false, what is a stop, what is not asked now. */
import { comparisonsOf } from '../../shared/conditions.js'
import type { ActiveStop, Evidence, FindingState, FiredRules } from '../../shared/diagnosis.js'
import type { Situation } from '../../shared/situation.js'
import type { Relevance } from '../../shared/knowledge.js'
import { factsFrom } from './facts.js'
import { firedRules } from './fired-rules.js'
import type { KindModel } from './model.js'

export interface Findings {
  /** how each finding stands, relevance applied */
  readonly states: ReadonlyMap<string, FindingState>
  /** what enters the score: one finding a topic, in rulebook order */
  readonly evidence: readonly Evidence[]
  /** those that nobody has lifted */
  readonly stops: readonly ActiveStop[]
  readonly relevance: readonly Relevance[]
  readonly fired: Omit<FiredRules, 'policy'>
}

/** @returns every finding of the kind with its state, and what follows from the states */
export async function findingsFrom(model: KindModel, situation: Situation): Promise<Findings> {
  const facts = factsFrom(model.findingsOfQuestion.keys(), situation.answers)
  const held = await firedRules(model.findings, facts)
  const asGiven = statesGiven(model, situation, new Set(held))
  const { stops, relevance } = await settledBy(model, asGiven, situation.stopsLifted)
  const states = seenOnlyRunning(model, asGiven, relevance)
  return {
    states,
    evidence: evidenceOf(model, states, situation),
    stops: stops
      .filter(({ id }) => !situation.stopsLifted.includes(id))
      .map(({ id, grade, now, firstAid }) => ({ id, grade, now, firstAid })),
    relevance,
    fired: { findings: held, stops: stops.map((s) => s.id), relevance: relevance.map((r) => r.id) },
  }
}

/**
 * Stops and relevance rules that hold for these states of findings. What set off a stop that was lifted since
 * stays evidence, but no longer makes anything wait.
 */
export async function settledBy(
  model: KindModel,
  states: ReadonlyMap<string, FindingState>,
  stopsLifted: readonly string[] = [],
) {
  const facts: Record<string, FindingState> = {}
  // a rule for several kinds may look at what this one cannot show
  for (const rule of [...model.stops, ...model.relevance])
    for (const { fact } of comparisonsOf(rule.when)) facts[fact] = states.get(fact) ?? 'unknown'
  const stopIds = new Set(await firedRules(model.stops, facts))
  const done = model.stops.filter((stop) => stopIds.has(stop.id) && stopsLifted.includes(stop.id))
  const settled = { ...facts }
  for (const stop of done) for (const { fact } of comparisonsOf(stop.when)) settled[fact] = 'unknown'
  const relevanceIds = new Set(await firedRules(model.relevance, settled))
  return {
    stops: model.stops.filter((s) => stopIds.has(s.id)),
    relevance: model.relevance.filter((r) => relevanceIds.has(r.id)),
  }
}

function statesGiven(
  model: KindModel,
  situation: Situation,
  held: ReadonlySet<string>,
): Map<string, FindingState> {
  const states = new Map<string, FindingState>()
  model.findings.forEach((finding, f) => {
    const answer = situation.answers[model.questionOf[f]!]
    if (answer === undefined) states.set(finding.id, 'unknown')
    else if (answer === 'cant-tell') states.set(finding.id, 'cant-tell')
    else states.set(finding.id, held.has(finding.id) ? 'yes' : 'no')
  })
  return states
}

/** On a dead tool, what shows only on a running one is unknown, never false; a yes already given stays. */
function seenOnlyRunning(
  model: KindModel,
  states: ReadonlyMap<string, FindingState>,
  relevance: readonly Relevance[],
): ReadonlyMap<string, FindingState> {
  if (!relevance.some((rule) => rule.hides.running)) return states
  const result = new Map(states)
  for (const finding of model.findings) {
    if (finding.running && states.get(finding.id) === 'no') result.set(finding.id, 'unknown')
  }
  return result
}

function evidenceOf(
  model: KindModel,
  states: ReadonlyMap<string, FindingState>,
  situation: Situation,
): Evidence[] {
  const topicsTaken = new Set<string>()
  const evidence: Evidence[] = []
  model.findings.forEach((finding, f) => {
    const state = states.get(finding.id)
    if (state !== 'yes' && state !== 'no') return
    if (finding.topic !== undefined) {
      if (topicsTaken.has(finding.topic)) return
      topicsTaken.add(finding.topic)
    }
    evidence.push({
      finding: finding.id,
      present: state === 'yes',
      after: situation.answeredAfter[model.questionOf[f]!] ?? 0,
    })
  })
  return evidence
}
