/** One drawn tool from complaint to end under a policy, through the product's own findings and plan. */
import type { Fix, Step } from '../../shared/knowledge.js'
import type { ShopSettings, Situation } from '../../shared/situation.js'
import { findingsFrom } from '../diagnosis/findings.js'
import { buildPlan, serviceCost, waysToEnd } from '../diagnosis/plan/build.js'
import { stepAsShown } from '../diagnosis/plan/as-shown.js'
import type { PlanProblem, PlanState } from '../diagnosis/plan/problem.js'
import { actionCost } from '../diagnosis/plan/problem.js'
import { gateBefore } from '../diagnosis/gates.js'
import { barredByTrying } from '../diagnosis/policy.js'
import type { Prepared, PreparedKind } from '../diagnosis/prepare.js'
import { kindOf } from '../diagnosis/prepare.js'
import type { DrawnTool } from './tool.js'
import { putOnBench } from './tool-on-bench.js'
import type { ToolOnBench } from './tool-on-bench.js'

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

/** What was spent so far. */
interface Spent {
  /** steps taken after the complaint and the danger signs */
  screens: number
  /** those of them before the first fix or the end */
  first: number
  fixes: number
  /** a trained hand's, set-ups included */
  minutes: number
  /** money: hands, parts, and what the end costs */
  cost: number
}

export interface Course extends Readonly<Spent> {
  readonly end: 'cured' | 'sent-in' | 'retired' | 'set-aside'
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
  /** can everything be told that can be seen? else as the rulebook says of its ways of telling, where pages are read */
  readonly allTold?: boolean
  readonly onAct?: (act: Act) => void
}

/** More actions than the longest case has by far. */
const mostTurns = 160

/** @throws Error when the case does not end: a policy that goes round in circles */
export async function runCourse(input: CourseInput): Promise<Course> {
  const { shop, tool, policy } = input
  const kind = kindOf(input.prepared, input.kind)
  const bench = await putOnBench(
    kind,
    input.kind,
    tool,
    input.wrong ?? 0,
    shop.screens && input.allTold !== true ? kind.person : null,
  )
  const spent: Spent = { screens: 0, first: 0, fixes: 0, minutes: 0, cost: 0 }
  const stops = new Set<string>()
  const ended = (end: Course['end'], cost: number): Course => ({
    ...spent,
    end,
    cost: spent.cost + cost,
    stops: [...stops],
    trail: [...bench.trail, end],
  })
  bench.tellComplaint()
  for (let turn = 0; turn < mostTurns; turn++) {
    const standing = await standingOf(kind, input, bench.situation)
    for (const { id } of standing.stops) stops.add(id)
    if (standing.stops.some((s) => s.grade === 'set-aside'))
      return ended('set-aside', Math.min(serviceCost(shop), shop.replace))
    const { problem, state, dropped } = standing
    const choice = policy(problem, state, dropped)
    if (choice.kind === 'end') {
      const retired = waysToEnd[choice.index] === 'retire'
      const cost = retired ? shop.replace : sentInCost(bench, kind, shop)
      input.onAct?.({ choice, cost, problem, state })
      return ended(retired ? 'retired' : 'sent-in', cost)
    }
    const gate = gateBefore(kind.model, doneIn(kind, choice), bench.situation, standing.relevance)
    if (gate) {
      bench.tell(gate.questions)
      spent.screens++
      spent.minutes += gate.step.minutes
      spent.cost += gate.step.minutes * shop.rate
      continue
    }
    const cost = pay(spent, kind, problem, state, choice)
    input.onAct?.({ choice, cost, problem, state })
    if (choice.kind === 'step') bench.takeStep(choice.index, problem, state)
    else bench.tryFix(choice.index, problem)
    if (bench.causes.length === 0) return ended('cured', 0)
  }
  throw new Error(`tool ${tool.number} did not come to an end: ${bench.trail.join(' ')}`)
}

const doneIn = ({ model }: PreparedKind, { kind, index }: Choice): Step | Fix =>
  kind === 'step' ? model.steps[index]! : model.fixes[index]!

/** Where the case stands: the stops that hold, and the plan's problem and state. */
async function standingOf(kind: PreparedKind, { prepared, shop }: CourseInput, situation: Situation) {
  const { model } = kind
  const { states, evidence, relevance, stops } = await findingsFrom(model, situation)
  const spared = relevance.some((rule) => rule.hides.safetyTest)
  const tried = await barredByTrying(prepared.knowledge, model, shop, situation.fixesTried, spared)
  const barred = new Set([...(await kind.barred(shop, spared)).keys(), ...tried.keys()])
  return {
    stops,
    relevance,
    ...buildPlan({ prepared: kind, states, evidence, relevance, situation, shop, barred }),
  }
}

/** Adds what a step or fix takes, with the set-ups that do not stand yet. @returns its money */
function pay(
  spent: Spent,
  { model }: PreparedKind,
  problem: PlanProblem,
  state: PlanState,
  { kind, index }: Choice,
): number {
  const plan = kind === 'step' ? stepAsShown(problem, state, index, new Map()) : problem.fixes[index]!
  const done = kind === 'step' ? model.steps[index]! : model.fixes[index]!
  const missing = plan.setups & ~state.standing
  const cost = actionCost(problem, plan, state.standing)
  spent.cost += cost
  spent.minutes += model.setups.reduce(
    (sum, setup, bit) => (missing & (1 << bit) ? sum + setup.minutes : sum),
    done.minutes,
  )
  if (kind === 'step' && spent.fixes === 0) spent.first++
  if (kind === 'step') spent.screens++
  else spent.fixes++
  return cost
}

/** What no service can mend comes back, and a new tool is bought after all. */
function sentInCost({ causes }: ToolOnBench, { model }: PreparedKind, shop: ShopSettings): number {
  const retires = causes.some((c) => model.causes[c]!.service === 'retire')
  return serviceCost(shop) + (retires ? shop.replace : 0)
}
