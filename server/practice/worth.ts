/**
 * What a move is worth in a situation, in money, by the planner's own reckoning: its price and what the plan expects
 * to pay after it, over all answers that may come. The loss of a move is that against the plan's own choice in the
 * same situation, never below 0.
 *
 * Luck does not count. Both values are expectations over what may be wrong given what the learner knows at that
 * moment; neither the hidden cause nor the answer that came afterwards enters them. A good question that happened to
 * tell nothing costs nothing, a wild guess that happened to hit costs what it would have cost on average, and the
 * same move in the same situation costs the same whatever was drawn.
 *
 * Every move made is valued at the planner's full reach, whatever place the planner gives it: the planner values a
 * handful of actions so deep, and the others less.
 */
import type { PracticeMove } from '../../shared/practice.js'
import type { Situation } from '../../shared/situation.js'
import type { Reach } from '../diagnosis/plan/reach.js'
import { reach } from '../diagnosis/plan/reach.js'
import { serviceCost, waysToEnd } from '../diagnosis/plan/build.js'
import { endgame } from '../diagnosis/plan/endgame.js'
import { fixOrder } from '../diagnosis/plan/fix-order.js'
import { offersOf, rankActions } from '../diagnosis/plan/look-ahead.js'
import type { Outcome } from '../diagnosis/plan/outcomes.js'
import { fixOutcomes, outcomesOf } from '../diagnosis/plan/outcomes.js'
import type { PlanProblem, PlanState, PlanStep } from '../diagnosis/plan/problem.js'
import { actionCost } from '../diagnosis/plan/problem.js'
import { stateValue } from '../diagnosis/plan/state-value.js'
import type { Desk, BenchState } from './desk.js'
import { findingsAt, isMended } from './desk.js'
import { makeMove } from './moves.js'
import { setupWorth } from './setup-worth.js'
import type { PlanAt, Worth } from './plan-at.js'
import { expectedFrom, planAt } from './plan-at.js'
import { priceOf, stepMinutes } from './prices.js'

/** One level less far than the plan looks: for the states that a move leads to. */
const below: Reach = { ...reach, levels: reach.levels.slice(1), scan: 0 }

/**
 * @param move  one that could be made there (not refused, no slip that ends the exercise)
 * @param after the situation that a set-up led to, where it is at hand: what is worked out for it is then kept
 */
export async function worthOf(
  desk: Desk,
  standing: BenchState,
  move: PracticeMove,
  after?: Situation,
): Promise<Worth> {
  const free: Worth = { value: 0, plan: 0, loss: 0 }
  if (move.type === 'spread' || move.type === 'made-safe') return free
  if (isMended(standing)) return wasted(0, await priceOnceMended(desk, standing, move))
  const plan = await planAt(desk, standing.situation)
  const expected = expectedFrom(desk, plan)
  const price = plainPrice(desk, standing, move)
  if (price !== undefined) return wasted(expected, price)
  if (move.type === 'ended') return ended(desk, plan, expected, move.way)
  if (plan.stop) return wasted(expected, moneyFor(desk, standing, move))
  // those two have a plain price
  if (move.type === 'disinfected' || move.type === 'dared') return wasted(expected, 0)
  const {
    value,
    plan: best,
    loss,
  } = move.type === 'stood' || move.type === 'put-back'
    ? await setupWorth(desk, plan, move, after ?? (await makeMove(desk, standing, move)).after.situation)
    : open(desk, plan, move)
  // danger questions that are still to be asked are still to be paid for, whatever comes first
  const danger = expected - best
  return { value: value + danger, plan: expected, loss }
}

const wasted = (plan: number, price: number): Worth => ({ value: plan + price, plan, loss: price })

/**
 * Once the trouble is gone, disinfecting and handing back are all there is to do, or setting aside where a danger is
 * known that nobody here may lift; the rest is paid for nothing.
 */
async function priceOnceMended(desk: Desk, standing: BenchState, move: PracticeMove): Promise<number> {
  if (move.type === 'disinfected') return standing.disinfected ? moneyFor(desk, standing, move) : 0
  if (move.type !== 'ended') return moneyFor(desk, standing, move)
  const { stops } = await findingsAt(desk, standing.situation)
  const right = stops.some(({ grade }) => grade === 'set-aside') ? 'set-aside' : 'hand-back'
  if (move.way === right) return 0
  return move.way === 'set-aside' ? desk.shop.replace : serviceCost(desk.shop)
}

/** The price of what the plan does not weigh; undefined for what it does. Danger questions are right at any time, once. */
function plainPrice(desk: Desk, standing: BenchState, move: PracticeMove): number | undefined {
  const { shop, kind } = desk
  if (move.type === 'disinfected') return standing.disinfected ? moneyFor(desk, standing, move) : 0
  if (move.type === 'dared') return moneyFor(desk, standing, move)
  if (move.type !== 'looked') return undefined
  const step = kind.model.steps.find(({ id }) => id === move.step)!
  if (step.form !== 'danger') return undefined
  const asked = step.questions.filter(({ id }) => move.question === undefined || id === move.question)
  if (asked.some(({ id }) => standing.situation.answers[id] === undefined)) return 0
  return stepMinutes(step, asked.length === 1 ? asked[0] : undefined) * shop.rate
}

/** The price in money, with the set-ups that do not stand. */
function moneyFor({ kind: { model }, shop }: Desk, { situation }: BenchState, move: PracticeMove): number {
  const { minutes, parts } = priceOf(model, situation.standing, move)
  return minutes * shop.rate + parts
}

/**
 * A client whose tool comes back as it went has paid for nothing, says so, and is lost as often as not: four times what
 * a service costs (common practice, no source). It is never better than sending the tool in.
 */
const handedBackInTrouble = 4

/** What is handed back in trouble comes back: all is still to do, and it cost a client's trust. */
function ended(
  desk: Desk,
  plan: PlanAt,
  expected: number,
  way: 'hand-back' | 'send-in' | 'set-aside',
): Worth {
  const { problem, state, best, stop, danger } = plan
  const worth = (value: number): Worth => ({
    value,
    plan: expected,
    loss: Math.max(0, value - expected),
  })
  if (way === 'hand-back') return worth(expected + handedBackInTrouble * serviceCost(desk.shop))
  if (stop) return worth(way === 'set-aside' ? problem.stopCost : serviceCost(desk.shop))
  // set aside without a danger, a tool is missing in the shop: a new one is bought
  const index = waysToEnd.indexOf(way === 'send-in' ? 'send-in' : 'retire')
  if (best.kind === 'end' && best.index === index && !danger) return worth(expected)
  const costs = problem.ends[index]!
  return worth(state.weights.reduce((sum, w, h) => sum + w * costs[h]!, 0))
}

type Open = Extract<PracticeMove, { type: 'looked' | 'tried' }>

function open(desk: Desk, plan: PlanAt, move: Open): Worth {
  const { model } = desk.kind
  const { problem, state, best } = plan
  const worth = (value: number): Worth => ({ value, plan: best.value, loss: Math.max(0, value - best.value) })
  if (move.type === 'tried') {
    const f = model.fixes.findIndex(({ id }) => id === move.fix)
    if (best.kind === 'fix' && best.index === f) return worth(best.value)
    const cost = actionCost(problem, problem.fixes[f]!, state.standing)
    return worth(cost + after(plan, fixOutcomes(problem, state, f)))
  }
  const s = model.steps.findIndex(({ id }) => id === move.step)
  if (best.kind === 'step' && best.index === s && move.question === undefined) return worth(best.value)
  const asked = stepAsked(desk, problem, move)
  const cost = actionCost(problem, asked, state.standing)
  if (!asked.findings.some((f) => !state.settled[f])) return worth(cost + best.value)
  return worth(cost + after(plan, outcomesOf(problem, state, asked, reach.levels[0]!.cells)))
}

/** A look as the planner sees it: the whole step, or one question of it. */
export function stepAsked(
  { kind: { model }, shop }: Desk,
  problem: PlanProblem,
  move: Extract<PracticeMove, { type: 'looked' }>,
): PlanStep {
  const s = model.steps.findIndex(({ id }) => id === move.step)
  const step = model.steps[s]!
  const whole = problem.steps[s]!
  const question = step.questions.find(({ id }) => id === move.question)
  const over = question && new Set(model.findingsOfQuestion.get(question.id) ?? [])
  return {
    ...whole,
    findings: over ? whole.findings.filter((f) => over.has(f)) : whole.findings,
    cost: stepMinutes(step, question) * shop.rate,
  }
}

/** Expected cost after a move, over what may come of it. */
function after(plan: PlanAt, outcomes: readonly Outcome[]): number {
  const { problem } = plan
  return outcomes.reduce(
    (sum, { probability, state }) =>
      sum +
      probability *
        (!state
          ? problem.stopCost
          : probability < reach.rare
            ? fixOrder(problem, state).cost
            : leadsTo(plan, state)),
    0,
  )
}

/** As the plan values what its own choice leads to: exactly where it was exact, hopefully where it only hoped. */
function leadsTo({ problem, exact, state, best }: PlanAt, next: PlanState): number {
  const solved = exact ? endgame(problem, next) : null
  if (solved) return solved.value
  const value = rankActions(problem, next, below)[0]!.value
  // the plan may have gone on asking for the sake of V alone; then V counts for every other question too
  if (best.kind !== 'step' || fixOrder(problem, state).cost > best.value + 1e-9) return value
  const cache = new Map()
  const scan = offersOf(problem, next, cache)
    .slice(0, reach.scan)
    .map(({ s }) => s)
  return Math.min(value, stateValue(problem, next, scan, cache))
}
