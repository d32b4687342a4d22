/** What a card asks or mends next in a state of knowledge, and what it costs to go on there without asking. */
import { reach } from '../diagnosis/plan/reach.js'
import { gains } from '../diagnosis/plan/fix-order.js'
import type { Action } from '../diagnosis/plan/look-ahead.js'
import { offersOf, rankActions } from '../diagnosis/plan/look-ahead.js'
import { fixOutcomes } from '../diagnosis/plan/outcomes.js'
import type { PlanProblem, PlanState, PlanStep } from '../diagnosis/plan/problem.js'
import { actionCost, endNow, isOpen, withSteps } from '../diagnosis/plan/problem.js'
import { stateValue } from '../diagnosis/plan/state-value.js'

/** A repair whose expected cost is at most this share above the best question's is drawn instead of it. */
const nearEnough = 0.01

/** A step as a whole, or one question of a step that the hand is at. */
interface Ask {
  readonly plan: PlanStep
  readonly step: number
  readonly finding: number | undefined
}

export type Choice =
  | { readonly kind: 'fix'; readonly index: number }
  | { readonly kind: 'end'; readonly index: number }
  | { readonly kind: 'question'; readonly step: number; readonly finding: number }

/** One question of a step that is looked at anyway: it takes no more time. */
export const single = (problem: PlanProblem, step: number, finding: number): PlanStep => ({
  ...problem.steps[step]!,
  findings: [finding],
  cost: 0,
})

/** @param inHand checks that the hand is at: their other questions cost no more time */
export function onPaper(problem: PlanProblem, state: PlanState, inHand: ReadonlySet<number>): Choice {
  const open = problem.steps.flatMap((plan, step) => (isOpen(state, plan) ? [{ plan, step }] : []))
  const asks = open.flatMap(({ plan, step }): Ask[] =>
    inHand.has(step)
      ? plan.findings
          .filter((finding) => !state.settled[finding])
          .map((finding) => ({ plan: single(problem, step, finding), step, finding }))
      : [{ plan, step, finding: undefined }],
  )
  const actions = rankActions(
    withSteps(
      problem,
      asks.map(({ plan }) => plan),
    ),
    state,
    reach,
  )
  const best = actions[0]!
  const within = (it: Action) => it.value <= best.value * (1 + nearEnough)
  const fix = actions.find((it) => it.kind === 'fix' && within(it))
  if (fix) return { kind: 'fix', index: fix.index }
  if (best.kind === 'end') return { kind: 'end', index: best.index }
  const { step, finding } = asks[best.index]!
  return { kind: 'question', step, finding: finding ?? mostTelling(problem, state, step) }
}

/** Of a step's open findings the one to ask first, were the others not asked at all. */
function mostTelling(problem: PlanProblem, state: PlanState, step: number): number {
  const findings = problem.steps[step]!.findings.filter((finding) => !state.settled[finding])
  const steps = findings.map((finding) => single(problem, step, finding))
  const best = rankActions(withSteps(problem, steps), state, reach).find(({ kind }) => kind === 'step')
  return findings[best?.index ?? 0]!
}

/** A line without a question: a repair, or the end. */
export interface Rung {
  /** undefined: the end */
  readonly fix: number | undefined
  /** what the plan expects to pay more by it, for a tool that comes here; money, above 0 */
  readonly loses: number
  /** share of the tools that come here that it brings to an end, in (0, 1] */
  readonly ends: number
}

/** Repairs that cure fewer of the tools that come here than this are not drawn. */
const leastCured = 0.05
/** Money; keeps what loses nothing comparable: the likelier end goes first. */
const nextToNothing = 1e-6

/** What brings most tools to an end for what it loses, were nothing more asked here. */
export function bestRung(problem: PlanProblem, state: PlanState, mayMend: boolean): Rung {
  const value = stateWorth(problem, state)
  const loses = (cost: number) => Math.max(nextToNothing, cost - value)
  let best: Rung = { fix: undefined, loses: loses(endNow(problem, state.weights).cost), ends: 1 }
  if (!mayMend) return best
  gains(problem, state).forEach((gain, fix) => {
    if (gain < leastCured) return
    let cost = actionCost(problem, problem.fixes[fix]!, state.standing)
    let ends = 1
    for (const rest of fixOutcomes(problem, state, fix)) {
      ends -= rest.probability
      if (rest.state) cost += rest.probability * stateWorth(problem, rest.state)
    }
    const rung = { fix, loses: loses(cost), ends }
    if (rung.ends / rung.loses > best.ends / best.loses) best = rung
  })
  return best
}

/** Money that the guided flow is expected to pay from here. */
function stateWorth(problem: PlanProblem, state: PlanState): number {
  const cache = new Map()
  const scan = offersOf(problem, state, cache)
    .slice(0, reach.scan)
    .map(({ s }) => s)
  return stateValue(problem, state, scan, cache)
}
