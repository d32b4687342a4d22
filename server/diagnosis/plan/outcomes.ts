/** What can come of a step or a fix: the states of knowledge after it, with their probabilities. */
import type { Left, PlanFix, PlanProblem, PlanState, PlanStep } from './problem.js'

export interface Outcome {
  readonly probability: number
  /** null: the work ends there (a set-aside), at `problem.stopCost` */
  readonly state: PlanState | null
}

/** Outcomes less likely than this are not split further: the planner then forgets what they would tell. */
const smallestSplit = 0.03

/** Some answers of a step taken together: what may be wrong then, unnormalised, and what is known. Its weights are its own once something is. */
interface Cell {
  readonly weights: Float64Array
  readonly mass: number
  /** findings whose truth is known in this cell: f for true, ~f for false */
  readonly known: readonly number[]
  readonly hidesRunning: boolean
  readonly stopped: boolean
}

/**
 * The states after a step. Joint answers are split finding by finding; rare combinations are left unsplit,
 * which only makes the step look a little less telling than it is; with `Infinity` cells every one is split.
 *
 * What the person can tell of it goes together: one look, one pair of hands. Who can tell what few can tells the rest
 * as well, so there are as many cases as there are chances to tell, not as many as there are subsets. What was asked
 * and not told is not asked again, and is no evidence; who can tell none of it may not have looked at all, so that no
 * set-up stands for it.
 */
export function outcomesOf(problem: PlanProblem, state: PlanState, step: PlanStep, cells: number): Outcome[] {
  const asked = step.findings.filter((f) => !state.settled[f])
  const stands = (state.standing | step.setups) & step.keeps
  return tellings(problem, asked, cells === Infinity).flatMap(({ told, probability }) =>
    splitAll(problem, state, told, cells).map((cell) => ({
      probability: probability * cell.mass,
      state: cell.stopped
        ? null
        : stateAfter(problem, state, asked, told, cell, told.length > 0 ? stands : state.standing),
    })),
  )
}

interface Telling {
  /** findings that are told then */
  readonly told: readonly number[]
  readonly probability: number
}

/** Who can tell how much of it; rare cases are taken for the next one, in which less is told, unless all are wanted. */
function tellings({ tell }: PlanProblem, asked: readonly number[], all: boolean): Telling[] {
  const levels = [...new Set(asked.map((f) => tell[f]!))].sort((a, b) => a - b)
  const list: Telling[] = []
  let below = 0
  for (const level of levels) {
    if (!all && level - below < smallestSplit) continue
    list.push({ told: asked.filter((f) => tell[f]! >= level), probability: level - below })
    below = level
  }
  if (below < 1) list.push({ told: [], probability: 1 - below })
  return list
}

function splitAll(problem: PlanProblem, state: PlanState, told: readonly number[], cells: number): Cell[] {
  const which = (count: number): Which => (cells === Infinity ? 'all' : count < cells ? 'likely' : 'none')
  const witnesses = told.filter((f) => isWitness(problem, f, told))
  let list: Cell[] = [{ weights: state.weights, mass: 1, known: [], hidesRunning: false, stopped: false }]
  for (const f of witnesses) {
    const next: Cell[] = []
    for (const cell of list) {
      const ruledOut = problem.excludes[f]!.some((other) => cell.known.includes(other))
      if (cell.stopped || ruledOut || (cell.hidesRunning && problem.running[f])) next.push(cell)
      else split(problem, cell, f, which(list.length + next.length), next)
    }
    list = next
  }
  return list
}

/** Of one topic only the first known counts, in rulebook order: the others of a step that settles them all tell nothing. */
export const isWitness = (problem: PlanProblem, f: number, asked: readonly number[]): boolean =>
  problem.sameTopic[f]!.every((other) => other >= f || !asked.includes(other))

/** Which findings of a cell are split by their truth: all, the likely ones, or only those that stop. */
type Which = 'all' | 'likely' | 'none'

/** Splits a cell by the truth of one finding, or leaves it whole where a side would be too rare to matter. */
function split(problem: PlanProblem, cell: Cell, f: number, which: Which, into: Cell[]): void {
  const chance = problem.chance[f]!
  const size = chance.length
  const { weights, mass } = cell
  const yesEffect = problem.effectOfYes[f]!
  const noEffect = problem.effectOfNo[f]!
  if (which !== 'all' && !yesEffect.stops && !noEffect.stops && (mass < smallestSplit || which === 'none')) {
    return void into.push(cell)
  }
  const yesWeights = new Float64Array(size)
  let yes = 0
  for (let h = 0; h < size; h++) yes += yesWeights[h] = weights[h]! * chance[h]!
  const rarest = which === 'all' ? 1e-12 : 2e-3
  if (yes < rarest || mass - yes < Math.min(rarest, 1e-6)) return void into.push(cell)
  // The cell is gone after this: its own numbers become those of what is left of it.
  const noWeights = cell.known.length > 0 ? weights : new Float64Array(size)
  for (let h = 0; h < size; h++) noWeights[h] = weights[h]! - yesWeights[h]!
  into.push(
    {
      weights: yesWeights,
      mass: yes,
      known: [...cell.known, f],
      hidesRunning: cell.hidesRunning || yesEffect.hidesRunning,
      stopped: yesEffect.stops,
    },
    {
      weights: noWeights,
      mass: mass - yes,
      known: [...cell.known, ~f],
      hidesRunning: cell.hidesRunning || noEffect.hidesRunning,
      stopped: noEffect.stops,
    },
  )
}

/** The state after a step of which nothing was found true; null where that cannot be. */
export function nothingFound(problem: PlanProblem, state: PlanState, step: PlanStep): PlanState | null {
  const asked = step.findings.filter((f) => !state.settled[f])
  const weights = state.weights.slice()
  for (const f of asked) {
    const chance = problem.chance[f]!
    for (let h = 0; h < weights.length; h++) weights[h]! *= 1 - chance[h]!
  }
  const mass = weights.reduce((sum, w) => sum + w, 0)
  if (mass < 1e-9) return null
  const known = asked.map((f) => ~f)
  const standing = (state.standing | step.setups) & step.keeps
  return stateAfter(
    problem,
    state,
    asked,
    asked,
    { weights, mass, known, hidesRunning: false, stopped: false },
    standing,
  )
}

function stateAfter(
  problem: PlanProblem,
  before: PlanState,
  asked: readonly number[],
  told: readonly number[],
  cell: Cell,
  standing: number,
): PlanState {
  const settled = before.settled.slice()
  let tried = before.tried
  for (const f of asked) settled[f] = 1
  for (const f of told) {
    // what only shows on a running tool was not seen on one found dead, so its topic stays open
    const seen =
      !cell.hidesRunning || !problem.running[f] || cell.known.includes(f) || cell.known.includes(~f)
    if (seen) for (const other of problem.sameTopic[f]!) settled[other] = 1
  }
  let powerBarred = before.powerBarred
  for (const k of cell.known) {
    const effect = k >= 0 ? problem.effectOfYes[k]! : problem.effectOfNo[~k]!
    for (const other of effect.hidesFindings) settled[other] = 1
    if (effect.hidesRunning) for (const other of problem.runningFindings) settled[other] = 1
    if (effect.hidesPower) powerBarred = true
    if (effect.hidesFixes.length > 0 && tried === before.tried) tried = tried.slice()
    for (const fix of effect.hidesFixes) tried[fix] = 1
  }
  const { weights, mass } = cell
  const normalised = cell.known.length > 0 ? weights : new Float64Array(weights.length)
  for (let h = 0; h < weights.length; h++) normalised[h] = weights[h]! / mass
  return { weights: normalised, settled, tried, cured: before.cured, standing, powerBarred }
}

/**
 * The states after trying a fix that did not end the trouble (the cured share is what is missing from 1).
 * Set-ups are put back for the test run; the same fix brings no new chance. Two states where the fix's own
 * outcome tells something: first that it changed nothing, then that it got better.
 */
export function fixOutcomes(problem: PlanProblem, state: PlanState, fix: number): Outcome[] {
  const plan = problem.fixes[fix]!
  const tried = state.tried.slice()
  tried[fix] = 1
  const cured = problem.truthFixed ? state.cured.slice() : state.cured
  if (problem.truthFixed) plan.cures.forEach((chance, cause) => chance === 1 && (cured[cause] = 1))
  const told = plan.outcome >= 0 && !state.settled[plan.outcome] ? problem.chance[plan.outcome]! : null
  const lists = told
    ? [new Float64Array(state.weights.length), new Float64Array(state.weights.length)]
    : [new Float64Array(state.weights.length)]
  const { from, to, chance } = problem.truthFixed
    ? leftAfter(problem, plan, cured)
    : leftLately(problem, plan)
  for (let k = 0; k < from.length; k++) {
    const h = from[k]!
    const left = state.weights[h]! * chance[k]!
    const better = told ? told[h]! : 0
    lists[0]![to[k]!]! += left * (1 - better)
    if (told) lists[1]![to[k]!]! += left * better
  }
  const settled = told ? state.settled.slice() : state.settled
  if (told) settled[plan.outcome] = 1
  return lists.flatMap((weights) => {
    let mass = 0
    for (let h = 0; h < weights.length; h++) mass += weights[h]!
    if (mass < 1e-9) return []
    for (let h = 0; h < weights.length; h++) weights[h]! /= mass
    const after = { weights, settled, tried, cured, standing: 0, powerBarred: state.powerBarred }
    return [{ probability: mass, state: after }]
  })
}

/** Where a draw decides whether a fix cures, what it leaves hangs on the fix alone: worked out when first asked for. */
function leftLately(problem: PlanProblem, fix: PlanFix): Left {
  const { left } = problem.scratch
  const found = left.get(fix) ?? leftAfter(problem, fix, null)
  left.set(fix, found)
  return found
}

/** @param cured causes that are certainly cured by now; null where a draw decides */
function leftAfter(problem: PlanProblem, fix: PlanFix, cured: Uint8Array | null): Left {
  const left: Filling = { from: [], to: [], chance: [] }
  problem.sets.forEach((causes, h) => {
    if (!cured) becomes(problem, fix, h, left)
    else if (causes.some((c) => !cured[c])) put(left, h, h, 1)
  })
  return left
}

type Filling = { readonly [List in keyof Left]: number[] }

function put({ from, to, chance }: Filling, h: number, other: number, probability: number): void {
  from.push(h)
  to.push(other)
  chance.push(probability)
}

/** Every hypothesis that hypothesis h can become, nothing-left excepted. */
function becomes(problem: PlanProblem, fix: PlanFix, h: number, left: Filling): void {
  const causes = problem.sets[h]!
  const touched = causes.filter((c) => fix.cures.has(c))
  if (touched.length === 0) return put(left, h, h, 1)
  for (let mask = 0; mask < 1 << touched.length; mask++) {
    let p = 1
    touched.forEach((c, k) => {
      const g = fix.cures.get(c)!
      p *= mask & (1 << k) ? g : 1 - g
    })
    if (p === 0) continue
    const rest = causes.filter((c) => !touched.some((t, k) => t === c && mask & (1 << k)))
    if (rest.length > 0) put(left, h, problem.hypothesisOf.get(rest.join(','))!, p)
  }
}
