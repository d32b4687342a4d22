/** What was chosen → the next step as pages and API read it. */
import type { ActiveStop, CauseBelief, Ending, NextStep, Outlook } from '../../../shared/diagnosis.js'
import type { Gate } from '../gates.js'
import { lazily } from '../lazily.js'
import type { KindModel } from '../model.js'
import { stepAsShown } from './as-shown.js'
import type { PlanInput } from './build.js'
import { serviceCost, waysToEnd } from './build.js'
import type { Decided } from './choice.js'
import { fixOrder } from './fix-order.js'
import type { Action } from './look-ahead.js'
import { fixOutcomes, nothingFound, outcomesOf } from './outcomes.js'
import type { PlanOutlook } from './outlook.js'
import type { PlanFix, PlanProblem, PlanState, PlanStep } from './problem.js'
import { actionCost, endNow } from './problem.js'

export interface Telling extends PlanInput {
  readonly causes: readonly CauseBelief[]
}

/** Causes named as told apart by a step. */
const mostSeparated = 5

const nothing = {
  id: null,
  questions: [],
  folded: [],
  stepCost: 0,
  minutes: 0,
  expectedCost: 0,
  saves: 0,
  separates: [],
  exact: false,
  after: null,
  worthMinutes: null,
  outlook: null,
} as const

export const stopped = ({ id }: ActiveStop, { shop }: Telling): NextStep => ({
  ...nothing,
  step: 'stop',
  id,
  expectedCost: Math.min(serviceCost(shop), shop.replace),
})

/**
 * Danger is not weighed: it is asked first, whatever it saves.
 *
 * @param then what follows where nothing is ticked; null where it is not planned yet
 */
export function asked({ step, questions }: Gate, { shop }: PlanInput, then: Action | null): NextStep {
  const cost = step.minutes * shop.rate
  return {
    ...nothing,
    step: 'ask',
    id: step.id,
    questions,
    minutes: step.minutes,
    stepCost: cost,
    expectedCost: then && cost + then.value,
  }
}

export function offered(
  input: Telling,
  problem: PlanProblem,
  state: PlanState,
  { outlook }: Decided,
): NextStep {
  const { cost } = endNow(problem, state.weights)
  return {
    ...nothing,
    step: 'offer',
    stepCost: cost,
    expectedCost: cost,
    outlook: outlookTold(input, outlook),
  }
}

type StepAsShown = Omit<NextStep, 'outlook'>

/** How it stands before more is looked at is worked out when a page asks for it. */
function withOutlook(step: StepAsShown, told: () => Outlook): NextStep {
  const outlook = lazily(told)
  return {
    ...step,
    get outlook() {
      return outlook()
    },
  }
}

function outlookTold({ prepared: { model }, shop }: Telling, of: PlanOutlook, left = of.looks): Outlook {
  const fix = of.fix < 0 ? null : model.fixes[of.fix]!
  const ending = waysToEnd[of.end]!
  return {
    now: { step: fix ? (fix.ends ?? 'fix') : ending, fix: fix?.id ?? null },
    ending,
    because: of.because,
    changes: of.changes,
    looks: of.further,
    minutes: shop.rate > 0 ? of.cost / shop.rate : 0,
    left,
  }
}

export function described(
  input: Telling,
  problem: PlanProblem,
  state: PlanState,
  decided: Decided,
): NextStep {
  const { action, exact, then } = decided.best
  const common: Common = {
    ...nothing,
    expectedCost: action.value,
    exact,
    after: endingAfter(problem, state, action, then),
  }
  if (action.kind === 'end') {
    const stepCost = endNow(problem, state.weights).cost
    const ending: StepAsShown = { ...common, step: waysToEnd[action.index]!, stepCost }
    return withOutlook(ending, () => outlookTold(input, decided.outlook))
  }
  const told = action.kind === 'step' ? lookTold : fixTold
  return told(common, input, problem, state, decided)
}

type Common = Omit<StepAsShown, 'step'>

function fixTold(
  common: Common,
  input: Telling,
  problem: PlanProblem,
  state: PlanState,
  { best: { action }, outlook }: Decided,
): NextStep {
  const fix = input.prepared.model.fixes[action.index]!
  const tried: StepAsShown = {
    ...common,
    ...priced(input, problem, state, action, { plan: problem.fixes[action.index]!, minutes: fix.minutes }),
    step: fix.ends ?? 'fix',
    id: fix.id,
    questions: fix.outcome ? [fix.outcome.id] : [],
    saves: Math.max(0, endNow(problem, state.weights).cost - action.value),
    separates: input.causes.filter((c) => fix.cures[c.id] !== undefined).map((c) => c.id),
  }
  return withOutlook(tried, () => outlookTold(input, outlook, 0))
}

function lookTold(
  common: Common,
  input: Telling,
  problem: PlanProblem,
  state: PlanState,
  { best: { action }, outlook }: Decided,
): NextStep {
  const { model } = input.prepared
  const step = model.steps[action.index]!
  const plan = stepAsShown(problem, state, action.index, new Map())
  const over = ({ id }: { readonly id: string }) => model.findingsOfQuestion.get(id) ?? []
  const open = step.questions.filter((q) => over(q).some((f) => !state.settled[f]))
  const shown = open.filter((q) => over(q).some((f) => plan.findings.includes(f)))
  const look: StepAsShown = {
    ...common,
    ...priced(input, problem, state, action, { plan, minutes: step.minutes }),
    step: step.form === 'check' ? 'check' : 'ask',
    id: step.id,
    questions: shown.map((q) => q.id),
    folded: open.filter((q) => !shown.includes(q)).map((q) => q.id),
    saves: Math.max(0, fixOrder(problem, state).cost - action.value),
    separates: separated(model, problem, state, plan),
  }
  return withOutlook(look, () => outlookTold(input, outlook, Math.max(1, outlook.looks)))
}

/** What it takes, with the set-ups that do not stand yet, and after how long ending now would have been cheaper. */
function priced(
  { prepared: { model }, shop }: Telling,
  problem: PlanProblem,
  state: PlanState,
  { value }: Action,
  of: { readonly plan: PlanStep | PlanFix; readonly minutes: number },
): Pick<NextStep, 'stepCost' | 'minutes' | 'worthMinutes'> {
  const missing = of.plan.setups & ~state.standing
  const setups = model.setups.reduce((sum, s, bit) => (missing & (1 << bit) ? sum + s.minutes : sum), 0)
  const minutes = of.minutes + setups
  const saved = Math.max(0, endNow(problem, state.weights).cost - value)
  return {
    stepCost: actionCost(problem, of.plan, state.standing),
    minutes,
    worthMinutes: shop.rate > 0 ? minutes + saved / shop.rate : null,
  }
}

/** How it would end once this told nothing or cured nothing; null where it would go on. */
function endingAfter(
  problem: PlanProblem,
  state: PlanState,
  action: Action,
  then: (after: PlanState) => Action | null,
): Ending | null {
  if (action.kind === 'end') return null
  const after =
    action.kind === 'step'
      ? nothingFound(problem, state, stepAsShown(problem, state, action.index, new Map()))
      : fixOutcomes(problem, state, action.index)[0]?.state
  // A fix that is worth more than ending needs no further look, and most states have one.
  if (!after || fixOrder(problem, after).first >= 0) return null
  const next = then(after)
  return next?.kind === 'end' ? waysToEnd[next.index]! : null
}

/** Causes whose chance the step is expected to move most, likeliest first. */
function separated(model: KindModel, problem: PlanProblem, state: PlanState, step: PlanStep): string[] {
  const shareOf = (weights: Float64Array): Float64Array => {
    const share = new Float64Array(model.causes.length)
    weights.forEach((w, h) => problem.sets[h]!.forEach((c) => (share[c]! += w)))
    return share
  }
  const before = shareOf(state.weights)
  const moved = new Float64Array(model.causes.length)
  for (const outcome of outcomesOf(problem, state, step, 16)) {
    if (!outcome.state) continue
    const after = shareOf(outcome.state.weights)
    after.forEach((share, c) => (moved[c]! += outcome.probability * Math.abs(share - before[c]!)))
  }
  return [...moved.keys()]
    .filter((c) => moved[c]! > 0.002)
    .sort((a, b) => moved[b]! - moved[a]!)
    .slice(0, mostSeparated)
    .sort((a, b) => before[b]! - before[a]!)
    .map((c) => model.causes[c]!.id)
}
