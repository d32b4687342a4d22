/**
 * The next action by looking ahead: each open step and fix is valued by what it costs now and by the value
 * of the states it leads to; the best few are looked into one action deeper. Leaves are valued by U, the
 * cost of fixing without asking any more: what is promised can always be kept. (Valued by V, which counts
 * the questions still to come, the look-ahead keeps asking: among fifty steps some always look better than
 * they are.)
 *
 * U alone is short-sighted in one place, ending: a tool that no two actions can save may be saved by five.
 * So the work does not end while V, fitted to what simulated cases went on to cost, is below the cost of
 * ending: then the step that tells most for its cost is taken first.
 */
import { asShown } from './as-shown.js'
import type { PlanProblem, PlanState, PlanStep } from './problem.js'
import { actionCost, endNow, isOpen } from './problem.js'
import type { Outcome } from './outcomes.js'
import { fixOutcomes, outcomesOf } from './outcomes.js'
import { fixOrder, gains } from './fix-order.js'
import type { ClassCache } from './doubt.js'
import { doubtOf, planClasses } from './doubt.js'
import type { Reach } from './reach.js'
import { stateValue } from './state-value.js'

export interface Action {
  readonly kind: 'step' | 'fix' | 'end'
  /** step, fix or way to end */
  readonly index: number
  /** expected total cost from here, this action included */
  readonly value: number
  readonly order: number
}

/** Every action worth a look with its value, best first; ending is always among them. */
export function rankActions(problem: PlanProblem, state: PlanState, reach: Reach): Action[] {
  const cache: ClassCache = new Map()
  const ranked = looked(problem, state, reach, cache, 0, (next) => fixOrder(problem, next).cost)
  if (ranked[0]!.kind !== 'end') return ranked
  if (reach.pairs > 0) {
    const wider = {
      ...reach,
      levels: reach.levels.map((level, k) => (k === 0 ? { ...level, deeper: reach.pairs } : level)),
    }
    const again = looked(problem, state, wider, cache, 0, (next) => fixOrder(problem, next).cost)
    if (again[0]!.kind !== 'end') return again
  }
  if (reach.scan === 0) return ranked
  const offers = offersOf(problem, state, cache)
  const scan = offers.slice(0, reach.scan).map((o) => o.s)
  const hoped = stateValue(problem, state, scan, cache)
  const cheapest = offers[0]
  if (!cheapest || hoped >= ranked[0]!.value - 1e-9) return ranked
  const { order } = problem.steps[cheapest.s]!
  return [{ kind: 'step', index: cheapest.s, value: hoped, order }, ...ranked]
}

function looked(
  problem: PlanProblem,
  state: PlanState,
  reach: Reach,
  cache: ClassCache,
  depth: number,
  leaf: (next: PlanState) => number,
): Action[] {
  const level = reach.levels[depth]!
  const steps = candidates(offersOf(problem, state, cache), level.steps)
  const fixes = worthwhileFixes(problem, state, depth === 0 ? 8 : 4)
  const shallow = valued(problem, state, steps, fixes, level.cells, leaf)
  if (level.deeper === 0 || depth + 1 >= reach.levels.length) return shallow
  const few = shallow.slice(0, level.deeper)
  const among = (kind: Action['kind'], index: number) => few.some((a) => a.kind === kind && a.index === index)
  const best = steps.filter(({ s }) => among('step', s))
  const bestFixes = fixes.filter((f) => among('fix', f))
  return valued(problem, state, best, bestFixes, level.cells, (after, probability) =>
    probability < reach.rare ? leaf(after) : looked(problem, after, reach, cache, depth + 1, leaf)[0]!.value,
  )
}

/** What share of the gap a step closes, roughly, for each share of the doubt; only picks candidates. */
const roughShare = 1.5

export interface Offer {
  readonly s: number
  /** as its screen shows it here */
  readonly step: PlanStep
  /** cost for the whole doubt at the rate of this step */
  readonly price: number
  /** rough estimate of what asking it first saves */
  readonly gain: number
}

/** Open steps that tell something, by price, cheapest first. */
export function offersOf(problem: PlanProblem, state: PlanState, cache: ClassCache): Offer[] {
  const classes = planClasses(problem, state, cache)
  const doubt = doubtOf(state, classes)
  const gap = fixOrder(problem, state).cost - doubt.known
  const offers: Offer[] = []
  problem.steps.forEach((step, s) => {
    if (!isOpen(state, step)) return
    const shown = asShown(problem, state, classes, doubt, step)
    const share = shown.tells / Math.max(doubt.spread, 1e-9)
    if (share < 1e-5) return
    const cost = actionCost(problem, shown.step, state.standing)
    offers.push({ s, step: shown.step, price: cost / share, gain: roughShare * share * gap - cost })
  })
  return offers.sort((a, b) => a.price - b.price)
}

/** The steps worth valuing: those that seem to save most, and the cheapest tellers. */
function candidates(offers: readonly Offer[], most: number): Offer[] {
  const byGain = [...offers].sort((a, b) => b.gain - a.gain)
  const chosen = new Set(byGain.slice(0, Math.ceil((most * 2) / 3)))
  for (const o of offers) if (chosen.size < most) chosen.add(o)
  return [...chosen]
}

function valued(
  problem: PlanProblem,
  state: PlanState,
  steps: readonly Offer[],
  fixes: readonly number[],
  cells: number,
  value: (next: PlanState, probability: number) => number,
): Action[] {
  const now = fixOrder(problem, state)
  const end = endNow(problem, state.weights)
  const actions: Action[] = [{ kind: 'end', index: end.end, value: end.cost, order: Infinity }]
  // A plan that can be carried out bounds what its first fix is worth.
  const atMostPlanned = (f: number, cost: number) => (f === now.first ? Math.min(now.cost, cost) : cost)
  const mean = (outcomes: readonly Outcome[]) =>
    outcomes.reduce(
      (sum, o) => sum + o.probability * (o.state ? value(o.state, o.probability) : problem.stopCost),
      0,
    )
  for (const { s, step } of steps) {
    const cost = actionCost(problem, step, state.standing)
    const outcomes = outcomesOf(problem, state, step, cells)
    actions.push({ kind: 'step', index: s, value: cost + mean(outcomes), order: step.order })
  }
  for (const f of now.first >= 0 && !fixes.includes(now.first) ? [now.first, ...fixes] : fixes) {
    const fix = problem.fixes[f]!
    const cost = actionCost(problem, fix, state.standing)
    const value = atMostPlanned(f, cost + mean(fixOutcomes(problem, state, f)))
    actions.push({ kind: 'fix', index: f, value, order: fix.order })
  }
  return actions.sort((a, b) => a.value - b.value || a.order - b.order)
}

/** The likeliest fixes; the rest only cost. */
function worthwhileFixes(problem: PlanProblem, state: PlanState, most: number): number[] {
  const gain = gains(problem, state)
  return [...gain.keys()]
    .filter((f) => gain[f]! > 0.01)
    .sort((a, b) => gain[b]! - gain[a]!)
    .slice(0, most)
}
