/** Posterior and costs → the next step. */
import type { ActiveStop, NextStep } from '../../shared/diagnosis.js'
import type { Fix, Step } from '../../shared/knowledge.js'
import type { Gate } from './gates.js'
import { dangerStepOf, gateBefore, unsettledIn } from './gates.js'
import type { PlanInput } from './plan/build.js'
import { buildPlan } from './plan/build.js'
import { decide, lookFurther, withoutLooks } from './plan/choice.js'
import type { Action } from './plan/look-ahead.js'
import type { Telling } from './plan/telling.js'
import { asked, described, offered, stopped } from './plan/telling.js'

export interface Planning extends Telling {
  readonly stops: readonly ActiveStop[]
}

/** @returns the step with the least expected total cost; danger and stops come before money */
export function nextStep(input: Planning): NextStep {
  const { model } = input.prepared
  const stop = input.stops.find((s) => s.grade === 'set-aside')
  if (stop) return stopped(stop, input)
  const danger = dangerStepOf(model)
  if (danger && danger.questions.some((q) => input.situation.answers[q.id] === undefined)) {
    return asked({ step: danger, questions: unsettledIn(model, input.situation) }, input, null)
  }
  const { problem, state, dropped } = buildPlan(input)
  const planned = decide(problem, state, dropped)
  const decided = input.situation.lookedEnough ? withoutLooks(problem, state, planned) : planned
  const further =
    decided.offers && input.shop.screens ? lookFurther(problem, state, decided.best.action) : null
  if (further && (input.situation.looksWanted === 0 || input.situation.lookedEnough))
    return offered(input, problem, state, decided)
  const best = further ? { ...decided.best, action: further } : decided.best
  const gate = gateOf(input, best.action)
  return gate ? asked(gate, input, best.action) : described(input, problem, state, { ...decided, best })
}

/** What must be asked before the action is offered. */
function gateOf(
  { prepared: { model }, situation, relevance, barred }: PlanInput,
  { kind, index }: Action,
): Gate | null {
  if (kind === 'end') return null
  const action: Step | Fix = kind === 'step' ? model.steps[index]! : model.fixes[index]!
  const gate = gateBefore(model, action, situation, relevance)
  return gate && !barred.has(gate.step.id) ? gate : null
}
