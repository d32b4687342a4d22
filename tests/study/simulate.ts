/** One simulated case from complaint to end under a policy, through the product's own findings and plan. */
import { findingsFrom } from '../../server/diagnosis/findings.js'
import { buildPlan } from '../../server/diagnosis/plan/build.js'
import { actionCost } from '../../server/diagnosis/plan/problem.js'
import type { PlanProblem, PlanState } from '../../server/diagnosis/plan/problem.js'
import type { KindModel } from '../../server/diagnosis/model.js'
import type { Prepared } from '../../server/diagnosis/prepare.js'
import { kindOf } from '../../server/diagnosis/prepare.js'
import type { Answer, ShopSettings, Situation } from '../../shared/situation.js'
import type { World } from './world.js'
import { complaintOf } from './world.js'

export interface Choice {
  readonly kind: 'step' | 'fix' | 'end'
  readonly index: number
}
export type Policy = (problem: PlanProblem, state: PlanState) => Choice

export interface Course {
  readonly end: 'cured' | 'sent-in' | 'set-aside'
  readonly screens: number
  readonly fixes: number
  readonly minutes: number
  readonly cost: number
  readonly trail: readonly string[]
}

type Open = { -readonly [K in keyof Situation]: Situation[K] }

export async function simulate(
  prepared: Prepared,
  kindId: string,
  shop: ShopSettings,
  world: World,
  policy: Policy,
): Promise<Course> {
  const kind = kindOf(prepared, kindId)
  const { model } = kind
  const policyBars = await kind.barred(shop)
  const situation: Open = {
    kind: kindId,
    answers: {},
    answeredAfter: {},
    fixesTried: [],
    cannotDo: [],
    stopsLifted: [],
    standing: [],
  }
  let causes = [...world.causes]
  const trail: string[] = []
  let screens = 0
  let fixes = 0
  let cost = 0
  let minutes = 0

  const answer = (question: string) => {
    const f = model.findingsOfQuestion.get(question)?.[0]
    if (f === undefined) return
    const value: Answer = !world.seen(f, causes)
      ? 'cant-tell'
      : answerOf(model, question, world.shows(f, causes))
    situation.answers[question] = value
    situation.answeredAfter[question] = situation.fixesTried.length
    if (value !== 'cant-tell' && value !== 'no') trail.push(`+${question}`)
  }
  complaintOf(kind, world).forEach(answer)
  for (const step of model.steps) if (step.form === 'danger') step.questions.forEach((q) => answer(q.id))

  for (let turn = 0; turn < 120; turn++) {
    const { states, evidence, relevance, stops } = await findingsFrom(model, situation)
    const course = () => ({ screens, fixes, minutes, cost, trail })
    if (stops.some((s) => s.grade === 'set-aside')) return { end: 'set-aside', ...course() }
    const barred = new Set(policyBars.keys())
    const { problem, state } = buildPlan({
      prepared: kind,
      states,
      evidence,
      relevance,
      situation,
      shop,
      barred,
    })
    const choice = policy(problem, state)
    if (choice.kind === 'end') {
      cost += shop.sendIn
      trail.push('send-in')
      return { end: 'sent-in', ...course() }
    }
    if (choice.kind === 'step') {
      const plan = problem.steps[choice.index]!
      cost += actionCost(problem, plan, state.standing)
      minutes += actionCost(problem, plan, state.standing) / shop.rate
      screens++
      const step = model.steps[choice.index]!
      trail.push(step.id)
      const standing = (state.standing | plan.setups) & plan.keeps
      situation.standing = model.setups.filter((_, k) => standing & (1 << k)).map((s) => s.id)
      for (const q of step.questions) {
        const open = model.findingsOfQuestion.get(q.id)!.some((f) => !state.settled[f])
        if (open) answer(q.id)
      }
      continue
    }
    const plan = problem.fixes[choice.index]!
    cost += actionCost(problem, plan, state.standing)
    const fix = model.fixes[choice.index]!
    minutes += problem.costOfSetups[plan.setups & ~state.standing]! / shop.rate + fix.minutes
    fixes++
    trail.push(`fix:${fix.id}`)
    if (fix.outcome && situation.answers[fix.outcome.id] === undefined) answer(fix.outcome.id)
    causes = causes.filter((c) => !world.cures(choice.index, c, plan.cures.get(c) ?? 0))
    situation.standing = []
    if (causes.length === 0) return { end: 'cured', ...course() }
    situation.fixesTried = [...situation.fixesTried, fix.id]
    // The tool runs again although trouble is left: what hid the running findings is seen to be gone.
    kind.effectOfYes.forEach((effect, f) => {
      const question = model.questionOf[f]!
      if (!effect.hidesRunning || situation.answers[question] !== 'yes') return
      if (!world.shows(f, causes)) answer(question)
    })
  }
  throw new Error(`case ${world.number} did not end: ${trail.join(' ')}`)
}

function answerOf(model: KindModel, question: string, shows: boolean): Answer {
  for (const step of model.steps) {
    const asked = step.questions.find((q) => q.id === question)
    if (asked?.kind === 'number') return readingFor(model, question, shows)
  }
  return shows ? 'yes' : 'no'
}

/** A reading on the right side of the finding's threshold. */
function readingFor(model: KindModel, question: string, shows: boolean): number {
  const finding = model.findings[model.findingsOfQuestion.get(question)![0]!]!
  const [condition] = 'all' in finding.when ? finding.when.all : finding.when.any
  if (!condition || !('operator' in condition) || typeof condition.value !== 'number') return 0
  const above = condition.operator.startsWith('greater')
  return condition.value + (above === shows ? 1 : -1)
}
