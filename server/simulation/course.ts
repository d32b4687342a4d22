/** One drawn tool from complaint to end under a policy, through the product's own findings and plan. */
import { findingsFrom } from '../diagnosis/findings.js'
import type { KindModel } from '../diagnosis/model.js'
import { buildPlan, serviceCost, waysToEnd } from '../diagnosis/plan/build.js'
import type { PlanProblem, PlanState } from '../diagnosis/plan/problem.js'
import { actionCost } from '../diagnosis/plan/problem.js'
import { barredByTrying } from '../diagnosis/policy.js'
import type { Prepared, PreparedKind } from '../diagnosis/prepare.js'
import { kindOf } from '../diagnosis/prepare.js'
import type { ShopSettings, Situation } from '../../shared/situation.js'
import type { AnswerTable } from './answers.js'
import { answerShowing, answerTable } from './answers.js'
import { complaintOf, seeing } from './complaint.js'
import type { DrawnTool } from './tool.js'

export interface Choice {
  readonly kind: 'step' | 'fix' | 'end'
  readonly index: number
}

/** @param dropped share of what may be wrong that the hypotheses leave out */
export type Policy = (problem: PlanProblem, state: PlanState, dropped: number) => Choice

/** One thing done, and what stood when it was chosen. */
export interface Act {
  readonly choice: Choice
  /** money, set-ups included */
  readonly cost: number
  readonly problem: PlanProblem
  readonly state: PlanState
}

export interface Course {
  readonly end: 'cured' | 'sent-in' | 'retired' | 'set-aside'
  /** steps taken after the complaint and the danger signs */
  readonly screens: number
  readonly fixes: number
  /** a trained hand's, set-ups included */
  readonly minutes: number
  /** money: hands, parts, and what the end costs */
  readonly cost: number
  /** stops that showed, lifted ones too */
  readonly stops: readonly string[]
  /** `+question` for a yes, step ids, `fix:id`, and how it ended */
  readonly trail: readonly string[]
}

export interface CourseInput {
  readonly prepared: Prepared
  readonly kind: string
  readonly shop: ShopSettings
  readonly tool: DrawnTool
  readonly policy: Policy
  /** share of answers that are the contrary of what the tool shows, in [0, 1]; the complaint is always right */
  readonly wrong?: number
  readonly onAct?: (act: Act) => void
}

/** More actions than the longest case has by far. */
const mostTurns = 160

type Open = { -readonly [K in keyof Situation]: Situation[K] }

/** @throws Error when the case does not end: a policy that goes round in circles */
export async function runCourse(input: CourseInput): Promise<Course> {
  const { prepared, shop, tool, policy } = input
  const kind = kindOf(prepared, input.kind)
  const { model } = kind
  const bench = await benchOf(kind, input)
  const trail = bench.trail
  const sum = { screens: 0, fixes: 0, minutes: 0, cost: 0 }
  const seenStops = new Set<string>()
  complaintOf(model, tool, bench.seen).forEach((question) => bench.answer(question, true))
  for (const step of model.steps)
    if (step.form === 'danger') step.questions.forEach((q) => bench.answer(q.id))

  for (let turn = 0; turn < mostTurns; turn++) {
    const { situation } = bench
    const { states, evidence, relevance, stops } = await findingsFrom(model, situation)
    for (const { id } of stops) seenStops.add(id)
    const ended = (end: Course['end'], cost: number): Course => ({
      end,
      ...sum,
      cost: sum.cost + cost,
      stops: [...seenStops],
      trail: [...trail, end],
    })
    if (stops.some((s) => s.grade === 'set-aside'))
      return ended('set-aside', Math.min(serviceCost(shop), shop.replace))
    const spared = relevance.some((rule) => rule.hides.safetyTest)
    const barred = new Set([
      ...(await kind.barred(shop, spared)).keys(),
      ...(await barredByTrying(prepared.knowledge, model, shop, situation.fixesTried, spared)).keys(),
    ])
    const { problem, state, dropped } = buildPlan({
      prepared: kind,
      states,
      evidence,
      relevance,
      situation,
      shop,
      barred,
    })
    const choice = policy(problem, state, dropped)
    if (choice.kind === 'end') {
      const way = waysToEnd[choice.index]!
      const cost = way === 'retire' ? shop.replace : sentInCost(model, shop, bench.causes)
      input.onAct?.({ choice, cost, problem, state })
      return ended(way === 'retire' ? 'retired' : 'sent-in', cost)
    }
    const action = choice.kind === 'step' ? problem.steps[choice.index]! : problem.fixes[choice.index]!
    const cost = actionCost(problem, action, state.standing)
    input.onAct?.({ choice, cost, problem, state })
    sum.cost += cost
    const missing = action.setups & ~state.standing
    const done = choice.kind === 'step' ? model.steps[choice.index]! : model.fixes[choice.index]!
    sum.minutes +=
      done.minutes + model.setups.reduce((m, s, bit) => (missing & (1 << bit) ? m + s.minutes : m), 0)
    if (choice.kind === 'step') {
      sum.screens++
      bench.takeStep(choice.index, problem, state)
    } else {
      sum.fixes++
      bench.tryFix(choice.index, problem)
      if (bench.causes.length === 0) return ended('cured', 0)
    }
  }
  throw new Error(`tool ${tool.number} did not come to an end: ${trail.join(' ')}`)
}

/** What no service can mend comes back, and a new tool is bought after all. */
function sentInCost(model: KindModel, shop: ShopSettings, causes: readonly number[]): number {
  const retires = causes.some((c) => model.causes[c]!.service === 'retire')
  return serviceCost(shop) + (retires ? shop.replace : 0)
}

/** The tool on the bench: what is wrong with it now, and what was said and done. */
async function benchOf(kind: PreparedKind, { kind: kindId, tool, wrong = 0 }: CourseInput) {
  const { model } = kind
  const table: AnswerTable = await answerTable(model)
  const seen = seeing(model, kind.effectOfYes)
  const situation: Open = {
    kind: kindId,
    answers: {},
    answeredAfter: {},
    fixesTried: [],
    cannotDo: [],
    stopsLifted: [],
    standing: [],
  }
  const bench = { situation, seen, causes: tool.causes, trail: [] as string[], answer, takeStep, tryFix }
  return bench

  function answer(question: string, told = false): void {
    const over = model.findingsOfQuestion.get(question)
    if (!over) return
    const contrary = !told && tool.chance('wrong', question) < wrong
    const truths = over.map((f) => tool.shows(f, bench.causes) !== contrary)
    const visible = over.every((f) => seen(tool, f, bench.causes))
    const value = visible
      ? answerShowing(table, question, truths, tool.chance('reading', question))
      : ('cant-tell' as const)
    if (value === undefined) return
    situation.answers = { ...situation.answers, [question]: value }
    situation.answeredAfter = { ...situation.answeredAfter, [question]: situation.fixesTried.length }
    if (value !== 'cant-tell' && value !== 'no') bench.trail.push(`+${question}`)
  }

  function takeStep(index: number, problem: PlanProblem, state: PlanState): void {
    const step = model.steps[index]!
    const plan = problem.steps[index]!
    bench.trail.push(step.id)
    const standing = (state.standing | plan.setups) & plan.keeps
    situation.standing = model.setups.filter((_, bit) => standing & (1 << bit)).map((s) => s.id)
    for (const { id } of step.questions) {
      if (model.findingsOfQuestion.get(id)?.some((f) => !state.settled[f])) answer(id)
    }
  }

  function tryFix(index: number, problem: PlanProblem): void {
    const fix = model.fixes[index]!
    const { cures } = problem.fixes[index]!
    bench.trail.push(`fix:${fix.id}`)
    if (fix.outcome && situation.answers[fix.outcome.id] === undefined) answer(fix.outcome.id)
    bench.causes = bench.causes.filter((c) => !tool.cures(fix.id, c, cures.get(c) ?? 0))
    situation.standing = []
    if (bench.causes.length === 0) return
    situation.fixesTried = [...situation.fixesTried, fix.id]
    // The tool runs again although trouble is left: what hid the running findings is seen to be gone.
    kind.effectOfYes.forEach((effect, f) => {
      const question = model.questionOf[f]!
      if (!effect.hidesRunning || situation.answers[question] !== 'yes') return
      if (!tool.shows(f, bench.causes)) answer(question)
    })
  }
}
