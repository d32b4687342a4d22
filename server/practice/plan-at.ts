/** What the plan would do in a situation, and what it expects to pay from there. Looks at no hidden truth. */
import type { Step, Stop } from '../../shared/knowledge.js'
import type { ActiveStop } from '../../shared/diagnosis.js'
import { onceForEach } from '../../shared/once-for.js'
import type { Situation } from '../../shared/situation.js'
import { historyOf } from '../diagnosis/model.js'
import { bestAction } from '../diagnosis/plan/choice.js'
import { buildPlan } from '../diagnosis/plan/build.js'
import type { Action } from '../diagnosis/plan/look-ahead.js'
import type { PlanProblem, PlanState } from '../diagnosis/plan/problem.js'
import type { Weights } from '../diagnosis/posterior.js'
import { weigh } from '../diagnosis/posterior.js'
import type { Desk } from './desk.js'
import { barredAt, findingsAt } from './desk.js'

/** A situation as the planner sees it. Money in major units. */
export interface PlanAt {
  readonly situation: Situation
  readonly problem: PlanProblem
  readonly state: PlanState
  readonly dropped: number
  readonly weights: Weights
  /** a set-aside stop that is known and holds: nothing else is right then */
  readonly stop: ActiveStop | undefined
  /** the danger step while some question of it has no answer */
  readonly danger: Step | undefined
  /** the best action, dangers aside; its value is what the plan expects to pay from here */
  readonly best: Action
  /** was the rest solved exactly? */
  readonly exact: boolean
}

const planned = onceForEach<Situation, Promise<PlanAt>>()

/** Worked out once for each situation; a situation is of one desk. */
export const planAt = (desk: Desk, situation: Situation): Promise<PlanAt> =>
  planned(situation, '', () => reckoned(desk, situation))

async function reckoned(desk: Desk, situation: Situation): Promise<PlanAt> {
  const { kind, shop } = desk
  const { model } = kind
  const { states, evidence, relevance, stops } = await findingsAt(desk, situation)
  const { observations, tried } = historyOf(model, evidence, situation.fixesTried)
  const weights = weigh(model, observations, tried)
  const { problem, state, dropped } = buildPlan({
    prepared: kind,
    states,
    evidence,
    relevance,
    situation,
    shop,
    barred: new Set((await barredAt(desk, situation)).keys()),
    ...(weights.exact ? { trouble: weights.trouble } : {}),
  })
  const { action, exact } = bestAction(problem, state, dropped)
  return {
    situation,
    problem,
    state,
    dropped,
    weights,
    stop: stops.find(({ grade }) => grade === 'set-aside'),
    danger: model.steps.find(
      (step) =>
        step.form === 'danger' && step.questions.some(({ id }) => situation.answers[id] === undefined),
    ),
    best: action,
    exact,
  }
}

/** What the plan expects to pay from here, the danger questions included where they are still to be asked. */
export function expectedFrom(desk: Desk, plan: PlanAt): number {
  if (plan.stop) return plan.problem.stopCost
  return plan.best.value + (plan.danger ? plan.danger.minutes * desk.shop.rate : 0)
}

/** Stops that are known, hold, and can be made safe at this bench. */
export const liftable = (stops: readonly ActiveStop[]): readonly Pick<Stop, 'id'>[] =>
  stops.filter(({ grade }) => grade === 'off-the-client')

/** What a move is worth. Money; `loss` is at least 0. */
export interface Worth {
  /** expected total from here with this move first */
  readonly value: number
  /** expected total from here under the plan */
  readonly plan: number
  readonly loss: number
}
