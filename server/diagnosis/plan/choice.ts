/** A state of the plan → what the product does in it, dangers aside. */
import { endgame, solve } from './endgame.js'
import { fixOrder, gains, knownCost } from './fix-order.js'
import type { Action } from './look-ahead.js'
import { rankActions } from './look-ahead.js'
import type { PlanOutlook } from './outlook.js'
import { planOutlook } from './outlook.js'
import type { PlanProblem, PlanState } from './problem.js'
import { endNow } from './problem.js'
import { glance } from './reach.js'

/** Values closer than this share are a tie; the order of a good bench settles it. */
const nearTie = 0.01
/**
 * Where a fix is likely to cure, or an ending to be right, a look that saves less than this share of the cost is not worth
 * somebody's screen. Chosen by trials on 192 real and 160 drawn cases: the cost is flat between 0.3 and 0.6, the screens are
 * fewer; more to be saved, or nothing, costs more.
 */
const likely = { chance: 0.45, leastSaving: 0.03 }
/** Dropped fault sets that weigh no more than this share leave an exact solution exact. */
const negligible = 0.005

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
export function withoutLooks(problem: PlanProblem, state: PlanState, { best, outlook }: Decided): Decided {
  const { cost, first } = fixOrder(problem, state)
  const end = endNow(problem, state.weights)
  const action: Action =
    first >= 0
      ? { kind: 'fix', index: first, value: cost, order: problem.fixes[first]!.order }
      : { kind: 'end', index: end.end, value: end.cost, order: Infinity }
  return { best: { ...best, action, exact: false }, outlook, offers: first < 0 }
}

/** The look to take for somebody who wants to look further: the plan's own, or the one that tells most for its cost. */
export function lookFurther(problem: PlanProblem, state: PlanState, best: Action): Action | null {
  if (best.kind === 'step') return best
  const ranked = rankActions(problem, state, problem.reach)
  return ranked.find(({ kind }) => kind === 'step') ?? null
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
  const actions = rankActions(problem, state, problem.reach)
  return {
    action: settledTie(actions, withoutAsking(problem, state, actions)),
    exact: false,
    then: (after) =>
      (dropped < negligible ? endgame(problem, after) : null) ?? rankActions(problem, after, glance)[0]!,
  }
}

/** The best action; among near-ties of its kind, all better than any other kind, the one that comes first on a good bench. */
function settledTie(actions: readonly Action[], sooner: Action | null): Action {
  const best = sooner ?? actions[0]!
  const rival = actions.find((a) => a.kind !== best.kind)?.value ?? Infinity
  const most = Math.min(best.value * (1 + nearTie), rival)
  return actions
    .filter((a) => a === best || (a.value <= most && a.kind === best.kind))
    .reduce((first, a) => (a.order < first.order ? a : first), best)
}

/** What is likely right already, where looking first hardly saves anything; null where it does, or no look is best. */
function withoutAsking(problem: PlanProblem, state: PlanState, actions: readonly Action[]): Action | null {
  const [best] = actions
  if (best?.kind !== 'step') return null
  const close = actions.filter(
    ({ kind, value }) => kind !== 'step' && value <= best.value * (1 + likely.leastSaving),
  )
  if (close.length === 0) return null
  const cured = gains(problem, state)
  const chanceOf = ({ kind, index }: Action): number =>
    kind === 'fix' ? cured[index]! : chanceOfEnding(problem, state, index)
  return close.find((action) => chanceOf(action) >= likely.chance) ?? null
}

/** Chance that this ending would be best were the causes known. */
const chanceOfEnding = (problem: PlanProblem, state: PlanState, end: number): number =>
  state.weights.reduce(
    (sum, weight, h) =>
      weight > 0 && problem.ends[end]![h]! <= knownCost(problem, state, h).cost ? sum + weight : sum,
    0,
  )
