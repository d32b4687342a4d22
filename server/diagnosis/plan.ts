/** Posterior and costs → the next step. */
import type { ActiveStop, CauseBelief, Ending, NextStep, Outlook } from '../../shared/diagnosis.js'
import type { Fix, Step } from '../../shared/knowledge.js'
import type { Gate } from './gates.js'
import { dangerStepOf, gateBefore, unsettledIn } from './gates.js'
import { lazily } from './lazily.js'
import type { KindModel } from './model.js'
import type { PlanInput } from './plan/build.js'
import { buildPlan, serviceCost, waysToEnd } from './plan/build.js'
import { endgame, solve } from './plan/endgame.js'
import { fixOrder, gains } from './plan/fix-order.js'
import type { Action } from './plan/look-ahead.js'
import { rankActions } from './plan/look-ahead.js'
import { glance } from './plan/reach.js'
import { stepAsShown } from './plan/as-shown.js'
import type { PlanOutlook } from './plan/outlook.js'
import { planOutlook } from './plan/outlook.js'
import { fixOutcomes, nothingFound, outcomesOf } from './plan/outcomes.js'
import type { PlanProblem, PlanState, PlanStep } from './plan/problem.js'
import { actionCost, endNow } from './plan/problem.js'

/** Values closer than this share are a tie; the order of a good bench settles it. */
const nearTie = 0.01
/**
 * Where a fix is likely to cure, a look that saves less than this share of the cost is not worth somebody's screen. Chosen by
 * trials: a lower chance, or more to be saved, cost simulated cases more than the screens that it spared.
 */
const likely = { chance: 0.6, leastSaving: 0.03 }
/** Dropped fault sets that weigh no more than this share leave an exact solution exact. */
const negligible = 0.005

/** Causes named as told apart by a step. */
const mostSeparated = 5

export interface Planning extends PlanInput {
  readonly stops: readonly ActiveStop[]
  readonly causes: readonly CauseBelief[]
}

/** @returns the step with the least expected total cost; danger and stops come before money */
export function nextStep(input: Planning): NextStep {
  const { model } = input.prepared
  const stop = input.stops.find((s) => s.grade === 'set-aside')
  if (stop) {
    const cost = Math.min(serviceCost(input.shop), input.shop.replace)
    return { ...nothing, step: 'stop', id: stop.id, expectedCost: cost }
  }
  const danger = dangerStepOf(model)
  if (danger && danger.questions.some((q) => input.situation.answers[q.id] === undefined)) {
    return asked({ step: danger, questions: unsettledIn(model, input.situation) }, input, null)
  }
  const { problem, state, dropped } = buildPlan(input)
  const planned = decide(problem, state, dropped)
  const decided = input.situation.lookedEnough ? withoutLooks(problem, state, planned) : planned
  const further =
    decided.offers && input.shop.screens ? lookFurther(problem, state, decided.best.action) : null
  if (further && input.situation.looksWanted === 0) return offered(input, problem, state, decided)
  const best = further ? { ...decided.best, action: further } : decided.best
  const gate = gateOf(input, best.action)
  return gate ? asked(gate, input, best.action) : described(input, problem, state, { ...decided, best })
}

function offered(input: Planning, problem: PlanProblem, state: PlanState, { outlook }: Decided): NextStep {
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

/** Is the chance that looks change an ending below this, then it is offered. */
const hardlyAny = 0.1

/** What the product does in a state, dangers aside. */
export interface Decided {
  readonly best: ReturnType<typeof bestAction>
  readonly outlook: PlanOutlook
  /** is ending the thing to do, or to offer, now? */
  readonly offers: boolean
}

export function decide(problem: PlanProblem, state: PlanState, dropped: number): Decided {
  const best = bestAction(problem, state, dropped)
  const outlook = planOutlook(problem, state)
  const inVain = best.action.kind === 'step' && outlook.fix < 0 && outlook.changes < hardlyAny
  return { best, outlook, offers: best.action.kind === 'end' || inVain }
}

/** The first fix, or the ending where none is worth more: for somebody who has looked enough. */
function withoutLooks(problem: PlanProblem, state: PlanState, { best, outlook }: Decided): Decided {
  const { cost, first } = fixOrder(problem, state)
  const end = endNow(problem, state.weights)
  const action: Action =
    first >= 0
      ? { kind: 'fix', index: first, value: cost, order: problem.fixes[first]!.order }
      : { kind: 'end', index: end.end, value: end.cost, order: Infinity }
  return { best: { ...best, action, exact: false }, outlook, offers: first < 0 }
}

/** The look to take for somebody who wants to look further: the plan's own, or the one that tells most for its cost. */
function lookFurther(problem: PlanProblem, state: PlanState, best: Action): Action | null {
  if (best.kind === 'step') return best
  const ranked = rankActions(problem, state, problem.reach)
  return ranked.find(({ kind }) => kind === 'step') ?? null
}

function outlookTold({ prepared: { model }, shop }: Planning, of: PlanOutlook, left = of.looks): Outlook {
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

/**
 * What to do in a state, dangers aside.
 *
 * @param dropped share of what may be wrong that the hypotheses leave out, in [0, 1]
 * @returns the action, whether the rest was solved exactly, and what would be done in a state that it may lead to
 */
export function bestAction(
  problem: PlanProblem,
  state: PlanState,
  dropped: number,
): { action: Action; exact: boolean; then: (after: PlanState) => Action | null } {
  const solved = dropped < negligible ? solve(problem, state) : null
  if (solved) return { action: solved.action, exact: true, then: solved.at }
  return {
    action: settledTie(rankActions(problem, state, problem.reach), gains(problem, state)),
    exact: false,
    then: (after) =>
      (dropped < negligible ? endgame(problem, after) : null) ?? rankActions(problem, after, glance)[0]!,
  }
}

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

/**
 * Danger is not weighed: it is asked first, whatever it saves.
 *
 * @param then what follows where nothing is ticked; null where it is not planned yet
 */
function asked({ step, questions }: Gate, { shop }: PlanInput, then: Action | null): NextStep {
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

/** The best action; among near-ties of its kind, all better than any other kind, the one that comes first on a good bench. */
function settledTie(actions: readonly Action[], chances: Float64Array): Action {
  const best = likelyFix(actions, chances) ?? actions[0]!
  const rival = actions.find((a) => a.kind !== best.kind)?.value ?? Infinity
  const most = Math.min(best.value * (1 + nearTie), rival)
  return actions
    .filter((a) => a === best || (a.value <= most && a.kind === best.kind))
    .reduce((first, a) => (a.order < first.order ? a : first), best)
}

/** A fix that is likely to cure, where looking first hardly saves anything; null where it does, or something else is best. */
function likelyFix(actions: readonly Action[], chances: Float64Array): Action | null {
  const [best] = actions
  const fix = actions.find(({ kind, index }) => kind === 'fix' && chances[index]! >= likely.chance)
  return best?.kind === 'step' && fix && fix.value <= best.value * (1 + likely.leastSaving) ? fix : null
}

function described(
  input: Planning,
  problem: PlanProblem,
  state: PlanState,
  { best: { action, exact, then }, outlook }: Decided,
): NextStep {
  const { prepared, causes, shop } = input
  const { model } = prepared
  const end = endNow(problem, state.weights)
  const common = {
    expectedCost: action.value,
    exact,
    after: endingAfter(problem, state, action, then),
  }
  const worth = (minutes: number): number | null =>
    shop.rate > 0 ? minutes + Math.max(0, end.cost - action.value) / shop.rate : null
  if (action.kind === 'end') {
    const ending = { ...nothing, ...common, step: waysToEnd[action.index]!, stepCost: end.cost }
    return withOutlook(ending, () => outlookTold(input, outlook))
  }
  const asked = action.kind === 'step' ? stepAsShown(problem, state, action.index, new Map()) : null
  const plan = asked ?? problem.fixes[action.index]!
  const stepCost = actionCost(problem, plan, state.standing)
  const missing = plan.setups & ~state.standing
  const setupMinutes = model.setups.reduce((sum, s, bit) => (missing & (1 << bit) ? sum + s.minutes : sum), 0)
  if (!asked) {
    const fix = model.fixes[action.index]!
    const tried: StepAsShown = {
      ...common,
      folded: [],
      step: fix.ends ?? 'fix',
      id: fix.id,
      questions: fix.outcome ? [fix.outcome.id] : [],
      stepCost,
      minutes: fix.minutes + setupMinutes,
      worthMinutes: worth(fix.minutes + setupMinutes),
      saves: Math.max(0, end.cost - action.value),
      separates: causes.filter((c) => fix.cures[c.id] !== undefined).map((c) => c.id),
    }
    return withOutlook(tried, () => outlookTold(input, outlook, 0))
  }
  const step = model.steps[action.index]!
  const over = ({ id }: { readonly id: string }) => model.findingsOfQuestion.get(id) ?? []
  const open = step.questions.filter((q) => over(q).some((f) => !state.settled[f]))
  const shown = open.filter((q) => over(q).some((f) => asked.findings.includes(f)))
  const look: StepAsShown = {
    ...common,
    step: step.form === 'check' ? 'check' : 'ask',
    id: step.id,
    questions: shown.map((q) => q.id),
    folded: open.filter((q) => !shown.includes(q)).map((q) => q.id),
    stepCost,
    minutes: step.minutes + setupMinutes,
    worthMinutes: worth(step.minutes + setupMinutes),
    saves: Math.max(0, fixOrder(problem, state).cost - action.value),
    separates: separated(model, problem, state, asked),
  }
  return withOutlook(look, () => outlookTold(input, outlook, Math.max(1, outlook.looks)))
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
