/**
 * The rest solved exactly: when few findings and fixes are left, dynamic programming over the answers and
 * the fixes done, every outcome followed to the end.
 */
import { asShown } from './as-shown.js'
import type { ClassCache } from './doubt.js'
import { doubtOf, planClasses } from './doubt.js'
import type { PlanProblem, PlanState } from './problem.js'
import { actionCost, endNow, isOpen } from './problem.js'
import type { Action } from './look-ahead.js'
import type { Outcome } from './outcomes.js'
import { fixOutcomes, outcomesOf } from './outcomes.js'

/**
 * States of knowledge that the endgame may visit; beyond, the look-ahead decides. Estimated beforehand from
 * the findings and fixes that are left, and counted on the way, because set-ups and the order of steps make
 * more of them than the estimate sees. At about a tenth of a millisecond each this keeps a next step short.
 */
const mostStates = 600

/** Hypotheses that may hold now or once some of their causes are cured. */
function reachable(problem: PlanProblem, state: PlanState): number[] {
  const found = new Set<number>()
  const visit = (h: number) => {
    if (found.has(h)) return
    found.add(h)
    const set = problem.sets[h]!
    if (problem.truthFixed || set.length < 2) return
    for (const gone of set) visit(problem.hypothesisOf.get(set.filter((c) => c !== gone).join(','))!)
  }
  state.weights.forEach((w, h) => w > 0 && visit(h))
  return [...found]
}

/** A finding whose chance is the same for all that may be wrong tells nothing, now or later. */
function telling(problem: PlanProblem, hypotheses: readonly number[], f: number): boolean {
  const chance = problem.chance[f]!
  let low = 2
  let high = -1
  for (const h of hypotheses) {
    low = Math.min(low, chance[h]!)
    high = Math.max(high, chance[h]!)
  }
  return high - low > 1e-12 || problem.effectOfYes[f]!.stops || problem.effectOfNo[f]!.stops
}

interface Remaining {
  readonly steps: readonly number[]
  readonly fixes: readonly number[]
}

/** What is left to do, or null where it is too much to follow to the end. */
function remaining(problem: PlanProblem, state: PlanState, most: number): Remaining | null {
  let states = 1
  const hypotheses = reachable(problem, state)
  const steps: number[] = []
  for (let s = 0; s < problem.steps.length; s++) {
    const step = problem.steps[s]!
    if (!isOpen(state, step)) continue
    const open = step.findings.filter((f) => !state.settled[f] && telling(problem, hypotheses, f))
    if (open.length === 0) continue
    const levels = new Set(open.map((f) => problem.tell[f]!)).size
    states *=
      2 +
      levels * 2 ** Math.min(open.length, problem.mostAsked) -
      Number(open.every((f) => problem.tell[f] === 1))
    if (states > most) return null
    steps.push(s)
  }
  const there = new Set(hypotheses.flatMap((h) => problem.sets[h]!.filter((c) => !state.cured[c])))
  const fixes = problem.fixes.flatMap((fix, f) =>
    fix.barred || state.tried[f] || ![...fix.cures.keys()].some((c) => there.has(c)) ? [] : [f],
  )
  return states * 2 ** fixes.length > most ? null : { steps, fixes }
}

/** The rest, followed to its end. */
export interface Solved {
  readonly action: Action
  /** the best action in a state that the action may lead to: known already as a rule; null where it is too much to find */
  readonly at: (state: PlanState) => Action | null
}

/**
 * The best action with its exact value, or null where there is too much left to follow to the end.
 *
 * @param most states that may be visited
 */
export const endgame = (problem: PlanProblem, start: PlanState, most = mostStates): Action | null =>
  solve(problem, start, most)?.action ?? null

/** The same with what follows from it. */
export function solve(problem: PlanProblem, start: PlanState, most = mostStates): Solved | null {
  const left = remaining(problem, start, most)
  if (!left) return null
  const memo = new Map<string, Action>()
  const cache: ClassCache = new Map()
  let visited = 0
  const best = (state: PlanState): Action => {
    const key = keyOf(state)
    const known = memo.get(key)
    if (known) return known
    visited++
    const end = endNow(problem, state.weights)
    let action: Action = { kind: 'end', index: end.end, value: end.cost, order: Infinity }
    const consider = (
      kind: 'step' | 'fix',
      index: number,
      order: number,
      cost: number,
      outcomes: () => readonly Outcome[],
    ) => {
      if (cost >= action.value || visited > most) return
      let value = cost
      for (const o of outcomes()) {
        value += o.probability * (o.state ? best(o.state).value : problem.stopCost)
        if (value >= action.value) return
      }
      action = { kind, index, value, order }
    }
    const classes = planClasses(problem, state, cache)
    const doubt = doubtOf(state, classes)
    for (const s of left.steps) {
      if (!isOpen(state, problem.steps[s]!)) continue
      const { step } = asShown(problem, state, classes, doubt, problem.steps[s]!)
      consider('step', s, step.order, actionCost(problem, step, state.standing), () =>
        outcomesOf(problem, state, step, Infinity),
      )
    }
    for (const f of left.fixes) {
      const fix = problem.fixes[f]!
      if (state.tried[f]) continue
      consider('fix', f, fix.order, actionCost(problem, fix, state.standing), () =>
        fixOutcomes(problem, state, f),
      )
    }
    memo.set(key, action)
    return action
  }
  const action = best(start)
  if (visited > most) return null
  const at = (state: PlanState): Action | null => {
    visited = 0
    const then = best(state)
    return visited > most ? null : then
  }
  return { action, at }
}

/** What is known tells the state; the weights follow from it, rounded here so that two ways there meet. */
function keyOf(state: PlanState): string {
  const weights = Array.from(state.weights, (w) => w.toPrecision(9)).join()
  return `${state.standing}|${state.powerBarred}|${state.settled.join('')}|${state.tried.join('')}|${weights}`
}
