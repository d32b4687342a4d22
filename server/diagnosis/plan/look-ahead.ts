/**
 * The next action by looking ahead: each open step and fix is valued by what it costs now and by the value
 * of the states it leads to; the best few may be looked into one action deeper.
 */
import type { PlanProblem, PlanState } from './problem.js'
import { actionCost, endNow, isOpen } from './problem.js'
import type { Outcome } from './outcomes.js'
import { fixOutcomes, outcomesOf } from './outcomes.js'
import { fixOrder, gains } from './fix-order.js'
import type { ClassCache } from './state-value.js'
import { doubtOf, planClasses, stateValue, stepBits } from './state-value.js'

export interface Action {
  readonly kind: 'step' | 'fix' | 'end'
  /** step, fix or way to end */
  readonly index: number
  /** expected total cost from here, this action included */
  readonly value: number
  readonly order: number
}

export interface Reach {
  /** steps tried as candidates */
  readonly steps: number
  /** steps scanned for what asking may still buy at the leaves; 0 values leaves by U alone */
  readonly scan: number
  /** levels of look-ahead, 1 or more */
  readonly depth: number
  /** actions looked into one deeper, where depth > 1 */
  readonly wide: number
}

/** Every action worth a look with its value, best first; ending is always among them. */
export function rankActions(
  problem: PlanProblem,
  state: PlanState,
  reach: Reach,
  cache: ClassCache = new Map(),
): Action[] {
  const offers = offersOf(problem, state, cache)
  const scan = offers.slice(0, reach.scan).map((o) => o.s)
  const steps = offers.slice(0, reach.steps).map((o) => o.s)
  const fixes = worthwhileFixes(problem, state)
  const shallow = valued(problem, state, steps, fixes, (next) => stateValue(problem, next, scan, cache))
  if (reach.depth <= 1) return shallow
  const few = shallow.slice(0, reach.wide)
  const indices = (kind: Action['kind']) => few.filter((a) => a.kind === kind).map((a) => a.index)
  const next = { ...reach, depth: reach.depth - 1 }
  return valued(problem, state, indices('step'), indices('fix'), (after) =>
    Math.min(rankActions(problem, after, next, cache)[0]!.value, fixOrder(problem, after).cost),
  )
}

/** Open steps by price of a bit, cheapest first. */
export function offersOf(
  problem: PlanProblem,
  state: PlanState,
  cache: ClassCache,
): { readonly s: number; readonly price: number }[] {
  const classes = planClasses(problem, state, cache)
  const doubt = doubtOf(state, classes)
  const offers: { s: number; price: number }[] = []
  problem.steps.forEach((step, s) => {
    if (!isOpen(state, step)) return
    const bits = stepBits(problem, state, classes, doubt, s)
    if (bits > 1e-6) offers.push({ s, price: actionCost(problem, step, state.standing) / bits })
  })
  return offers.sort((a, b) => a.price - b.price)
}

function valued(
  problem: PlanProblem,
  state: PlanState,
  steps: readonly number[],
  fixes: readonly number[],
  value: (next: PlanState) => number,
): Action[] {
  const end = endNow(problem, state.weights)
  const actions: Action[] = [{ kind: 'end', index: end.end, value: end.cost, order: Infinity }]
  const mean = (outcomes: readonly Outcome[]) =>
    outcomes.reduce((sum, o) => sum + o.probability * (o.state ? value(o.state) : problem.stopCost), 0)
  for (const s of steps) {
    const step = problem.steps[s]!
    const cost = actionCost(problem, step, state.standing)
    actions.push({
      kind: 'step',
      index: s,
      value: cost + mean(outcomesOf(problem, state, step)),
      order: step.order,
    })
  }
  for (const f of fixes) {
    const fix = problem.fixes[f]!
    const cost = actionCost(problem, fix, state.standing)
    actions.push({
      kind: 'fix',
      index: f,
      value: cost + mean(fixOutcomes(problem, state, f)),
      order: fix.order,
    })
  }
  return actions.sort((a, b) => a.value - b.value || a.order - b.order)
}

/** The likeliest fixes; the rest only cost. */
function worthwhileFixes(problem: PlanProblem, state: PlanState): number[] {
  const gain = gains(problem, state)
  return [...gain.keys()]
    .filter((f) => gain[f]! > 0.01)
    .sort((a, b) => gain[b]! - gain[a]!)
    .slice(0, 8)
}
