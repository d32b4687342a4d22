/**
 * The planning problem as plain numbers: what may be wrong, what can be asked, what can be tried, what it
 * costs. Built from the rulebook by build.ts, or by a study from random numbers.
 *
 * A *hypothesis* is a set of causes that may be there now. Given one, findings are independent. Costs are
 * money; set-ups are bits of a mask.
 */
import { onceFor } from '../../../shared/once-for.js'
import type { Reach } from './reach.js'
import { reach } from './reach.js'

export interface PlanStep {
  /** findings in the order to be split: those that decide what else can be seen come first */
  readonly findings: readonly number[]
  /** without the set-ups and the lines asked; the screen and its reading included */
  readonly cost: number
  /** what one line costs to read and answer */
  readonly line: number
  /** set-ups it needs, their needs included */
  readonly setups: number
  /** set-ups that may go on standing through it (all, for a step without power) */
  readonly keeps: number
  readonly power: boolean
  /** place in the order of a good bench; settles near-ties, lower first */
  readonly order: number
  readonly barred: boolean
}

export interface PlanFix {
  /** without the set-ups, parts included */
  readonly cost: number
  readonly setups: number
  /** chance to cure each cause */
  readonly cures: ReadonlyMap<number, number>
  /** the finding that its outcome "better" or "no" settles, or -1 */
  readonly outcome: number
  readonly order: number
  readonly barred: boolean
}

/** What a finding known to be true (or false) changes. */
export interface FindingEffect {
  readonly hidesRunning: boolean
  readonly hidesPower: boolean
  /** ends the work */
  readonly stops: boolean
  readonly hidesFindings: readonly number[]
  readonly hidesFixes: readonly number[]
}

export interface PlanSpec {
  readonly causes: number
  /** by hypothesis: its causes, ascending; closed under taking causes away */
  readonly sets: readonly (readonly number[])[]
  /** by finding: P(true | hypothesis) for each hypothesis */
  readonly chance: readonly Float64Array[]
  readonly running: readonly boolean[]
  /** by finding: P(the person can tell, asked by a step); 1 everywhere unless told */
  readonly tell?: Float64Array
  /** questions that a step asks at once; no bound unless told */
  readonly mostAsked?: number
  /** by finding: topic number, or -1 */
  readonly topic: readonly number[]
  /** by finding: the others over the same question, which it excludes; none unless told */
  readonly excludes?: readonly (readonly number[])[]
  readonly effectOfYes: readonly FindingEffect[]
  readonly effectOfNo: readonly FindingEffect[]
  readonly steps: readonly PlanStep[]
  readonly fixes: readonly PlanFix[]
  /** by set-up bit: what it costs to get there and back */
  readonly setupCosts: readonly number[]
  /** ways to end now (a service, a new tool): the cost of each by hypothesis */
  readonly ends: readonly Float64Array[]
  /** where a set-aside ends it */
  readonly stopCost: number
  /** true in a study: what a finding shows was fixed at the start, whatever is cured since */
  readonly truthFixed: boolean
  /** how far the look-ahead goes; as the product does unless told */
  readonly reach?: Reach
}

/** The spec with the tables that every look needs. */
export interface PlanProblem extends PlanSpec {
  /** causes of each hypothesis, one list after the other: those of h stand from `at[h]` to `at[h + 1]` */
  readonly causesOf: Rows
  /** by cause: the fixes that may be done and cure it, with their chances in `chanceOf` */
  readonly fixesOf: Rows
  readonly chanceOf: Float64Array
  readonly tell: Float64Array
  readonly mostAsked: number
  readonly excludes: readonly (readonly number[])[]
  /** by step: its findings, those over one question together */
  readonly lines: ReadonlyMap<PlanStep, readonly (readonly number[])[]>
  /** by set-up mask: its cost */
  readonly costOfSetups: Float64Array
  /** by finding: what else is settled once it is known, its topic */
  readonly sameTopic: readonly (readonly number[])[]
  readonly runningFindings: readonly number[]
  readonly hypothesisOf: ReadonlyMap<string, number>
  readonly scratch: Scratch
  readonly reach: Reach
}

/** Room for the sums of one state, overwritten for the next: an order of fixes is made thousands of times in a look ahead. */
interface Scratch {
  /** by cause */
  readonly share: Float64Array
  readonly place: Int32Array
  readonly chance: Float64Array
  /** by fix */
  readonly gain: Float64Array
  readonly ratio: Float64Array
  readonly position: Int32Array
  /** by place in a sequence of fixes, and by that and way to end */
  readonly cured: Float64Array
  readonly saved: Float64Array
  /** by fix, as far as they were asked for */
  readonly left: Map<PlanFix, Left>
}

/** What a fix leaves: which hypothesis becomes which, with what chance. Three lists of one length; what is cured is in none. */
export interface Left {
  readonly from: readonly number[]
  readonly to: readonly number[]
  readonly chance: readonly number[]
}

const scratchFor = (causes: number, fixes: number, ways: number): Scratch => ({
  share: new Float64Array(causes),
  place: new Int32Array(causes),
  chance: new Float64Array(causes),
  gain: new Float64Array(fixes),
  ratio: new Float64Array(fixes),
  position: new Int32Array(fixes),
  cured: new Float64Array(fixes),
  saved: new Float64Array(fixes * ways),
  left: new Map(),
})

/** Lists of different lengths laid end to end, for the inner loops. */
interface Rows {
  readonly at: Int32Array
  readonly items: Int32Array
}

function rowsOf(lists: readonly (readonly number[])[]): Rows {
  const at = new Int32Array(lists.length + 1)
  lists.forEach((list, k) => (at[k + 1] = at[k]! + list.length))
  return { at, items: Int32Array.from(lists.flat()) }
}

const linesIn = (spec: PlanSpec, steps: readonly PlanStep[]): PlanProblem['lines'] =>
  new Map(steps.map((step) => [step, linesOf(spec, step)]))

/** The same problem with other steps. */
export const withSteps = (problem: PlanProblem, steps: readonly PlanStep[]): PlanProblem => ({
  ...problem,
  steps,
  lines: linesIn(problem, steps),
})

function linesOf({ excludes }: PlanSpec, { findings }: PlanStep): number[][] {
  const taken = new Set<number>()
  return findings.flatMap((f) => {
    if (taken.has(f)) return []
    const line = findings.filter((other) => other === f || excludes?.[f]!.includes(other))
    line.forEach((one) => taken.add(one))
    return [line]
  })
}

/** A state of knowledge. Weights sum to 1. Treat as immutable. */
export interface PlanState {
  readonly weights: Float64Array
  /** findings that are known, hidden or spoken for by their topic */
  readonly settled: Uint8Array
  readonly tried: Uint8Array
  /** causes certainly cured (only where `truthFixed`) */
  readonly cured: Uint8Array
  readonly standing: number
  readonly powerBarred: boolean
}

const sameTopicOf = onceFor((topics: PlanSpec['topic']) =>
  topics.map((topic, f) => (topic < 0 ? [f] : topics.flatMap((other, g) => (other === topic ? [g] : [])))),
)
const runningOf = onceFor((running: PlanSpec['running']) => running.flatMap((is, f) => (is ? [f] : [])))

export function planProblem(spec: PlanSpec): PlanProblem {
  const lists = Array.from({ length: spec.causes }, (): [number, number][] => [])
  spec.fixes.forEach((fix, f) => {
    if (!fix.barred) fix.cures.forEach((g, cause) => g > 0 && lists[cause]!.push([f, g]))
  })
  const masks = 1 << spec.setupCosts.length
  // Each field by name, none spread: all problems then have one shape, which the inner loops are compiled for but once.
  return {
    causes: spec.causes,
    sets: spec.sets,
    chance: spec.chance,
    running: spec.running,
    topic: spec.topic,
    excludes: spec.excludes ?? spec.chance.map(() => []),
    effectOfYes: spec.effectOfYes,
    effectOfNo: spec.effectOfNo,
    steps: spec.steps,
    fixes: spec.fixes,
    setupCosts: spec.setupCosts,
    ends: spec.ends,
    stopCost: spec.stopCost,
    truthFixed: spec.truthFixed,
    tell: spec.tell ?? new Float64Array(spec.chance.length).fill(1),
    mostAsked: spec.mostAsked ?? Infinity,
    reach: spec.reach ?? reach,
    lines: linesIn(spec, spec.steps),
    causesOf: rowsOf(spec.sets),
    fixesOf: rowsOf(lists.map((list) => list.map(([f]) => f))),
    chanceOf: Float64Array.from(lists.flat(), ([, g]) => g),
    costOfSetups: Float64Array.from({ length: masks }, (_, mask) =>
      spec.setupCosts.reduce((sum, cost, bit) => (mask & (1 << bit) ? sum + cost : sum), 0),
    ),
    sameTopic: sameTopicOf(spec.topic),
    runningFindings: runningOf(spec.running),
    hypothesisOf: new Map(spec.sets.map((set, h) => [set.join(','), h])),
    scratch: scratchFor(spec.causes, spec.fixes.length, spec.ends.length),
  }
}

/** What an action costs with the set-ups that do not stand yet. */
export const actionCost = (
  problem: PlanProblem,
  action: { readonly cost: number; readonly setups: number },
  standing: number,
): number => action.cost + problem.costOfSetups[action.setups & ~standing]!

/** May this step be taken, and does it still settle anything? */
export function isOpen(state: PlanState, step: PlanStep): boolean {
  if (step.barred || (step.power && state.powerBarred)) return false
  for (const f of step.findings) if (!state.settled[f]) return true
  return false
}

/** What ending now would cost, by way to end. */
export function endCosts({ ends }: PlanProblem, weights: Float64Array): number[] {
  const sums: number[] = []
  for (const costs of ends) {
    let cost = 0
    for (let h = 0; h < weights.length; h++) cost += weights[h]! * costs[h]!
    sums.push(cost)
  }
  return sums
}

export function leastOf(costs: readonly number[]): number {
  let least = Infinity
  for (const cost of costs) if (cost < least) least = cost
  return least
}

/** The cheapest way to end now. */
export function endNow(problem: PlanProblem, weights: Float64Array): { cost: number; end: number } {
  const costs = endCosts(problem, weights)
  const cost = leastOf(costs)
  return { cost, end: costs.indexOf(cost) }
}

/** The cheapest way to end when hypothesis h is known to hold. */
export const endCostOf = (problem: PlanProblem, h: number): number =>
  problem.ends.reduce((least, costs) => Math.min(least, costs[h]!), Infinity)
