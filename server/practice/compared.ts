/** A move beside the plan's: what each takes, tells and mends as things stood. Looks at no hidden truth. */
import type { PracticeMove } from '../../shared/practice.js'
import { waysToEnd } from '../diagnosis/plan/build.js'
import type { Outcome } from '../diagnosis/plan/outcomes.js'
import { fixOutcomes, outcomesOf } from '../diagnosis/plan/outcomes.js'
import { actionCost } from '../diagnosis/plan/problem.js'
import { reach } from '../diagnosis/plan/reach.js'
import type { DebriefStep } from './debrief.js'
import type { Desk } from './desk.js'
import { isMended } from './desk.js'
import type { PlanAt } from './plan-at.js'
import { planAt } from './plan-at.js'
import { stepAsked } from './worth.js'

export interface Compared {
  /** what rules there, before any weighing: a danger known, danger questions open, the trouble gone */
  readonly rule: 'stop-known' | 'danger-first' | 'mended' | undefined
  /** what the plan is after: the look, repair or end that its next move may only get the tool ready for */
  readonly goal: PracticeMove
  /** undefined for what is neither look nor repair */
  readonly yours: Promised | undefined
  readonly plans: Promised | undefined
}

/** What a look or a repair promises in a situation. */
export interface Promised {
  /** minutes, set-ups that do not stand included, and parts at what practice reckons a minute with */
  readonly minutes: number
  /** doubt that it is expected to take away, in bits */
  readonly tells: number
  /** is all known already that it could tell? */
  readonly stale: boolean
  /** chance that the trouble is gone after it, in [0, 1]; undefined for a look */
  readonly mends: number | undefined
}

/** @param step a move that was made: not refused, no slip that ended the exercise */
export async function comparedWithPlan(
  desk: Desk,
  { done: { before, move }, plan: next }: Pick<DebriefStep, 'done' | 'plan'>,
): Promise<Compared> {
  if (isMended(before)) return { rule: 'mended', goal: next, yours: undefined, plans: undefined }
  const plan = await planAt(desk, before.situation)
  const rule = plan.stop ? 'stop-known' : plan.danger ? 'danger-first' : undefined
  const goal = rule ? next : goalOf(desk, plan)
  return { rule, goal, yours: promiseOf(desk, plan, move), plans: promiseOf(desk, plan, goal) }
}

function goalOf({ kind: { model } }: Desk, { best: { kind, index } }: PlanAt): PracticeMove {
  if (kind === 'step') return { type: 'looked', step: model.steps[index]!.id }
  if (kind === 'fix') return { type: 'tried', fix: model.fixes[index]!.id }
  return { type: 'ended', way: waysToEnd[index] === 'send-in' ? 'send-in' : 'set-aside' }
}

function promiseOf(desk: Desk, { problem, state }: PlanAt, move: PracticeMove): Promised | undefined {
  const { rate } = desk.shop
  const before = doubt(state.weights)
  const left = (outcomes: readonly Outcome[]) =>
    outcomes.reduce((sum, { probability, state: to }) => sum + (to ? probability * doubt(to.weights) : 0), 0)
  if (move.type === 'tried') {
    const f = desk.kind.model.fixes.findIndex(({ id }) => id === move.fix)
    const outcomes = fixOutcomes(problem, state, f)
    const stays = outcomes.reduce((sum, { probability }) => sum + probability, 0)
    return {
      minutes: actionCost(problem, problem.fixes[f]!, state.standing) / rate,
      tells: before - left(outcomes),
      stale: false,
      mends: 1 - stays,
    }
  }
  if (move.type !== 'looked') return undefined
  const step = stepAsked(desk, problem, move)
  return {
    minutes: actionCost(problem, step, state.standing) / rate,
    tells: before - left(outcomesOf(problem, state, step, reach.levels[0]!.cells)),
    stale: !step.findings.some((f) => !state.settled[f]),
    mends: undefined,
  }
}

/** Shannon's entropy of what may be wrong, in bits. */
const doubt = (weights: Float64Array): number =>
  weights.reduce((sum, w) => (w > 0 ? sum - w * Math.log2(w) : sum), 0)
