/**
 * How it stands if nobody looked any further: what would be done, how likely a few more looks change that, and how many
 * looks the plan has still in mind. A rough tree: at each state the look that pays best by one step, three deep; rare
 * answers are not followed.
 */
import { lazily } from '../lazily.js'
import type { ClassCache } from './doubt.js'
import { fixOrder, knownCost } from './fix-order.js'
import { offersOf } from './look-ahead.js'
import type { Outcome } from './outcomes.js'
import { outcomesOf } from './outcomes.js'
import type { PlanProblem, PlanState } from './problem.js'
import { actionCost, endNow } from './problem.js'

/** Looks one after the other, looks weighed at each state, outcomes told apart, and what is too rare to follow. */
const tree = { deep: 3, wide: 4, cells: 6, rare: 0.02 }

export interface PlanOutlook {
  /** what would be done with no further look: the first fix, or -1 to end, in the cheapest way */
  readonly fix: number
  readonly end: number
  /** P(a few more looks change that), in [0, 1], and what they are expected to cost and count */
  readonly changes: number
  readonly cost: number
  readonly further: number
  /** looks that the plan is expected to take before it mends or ends */
  readonly looks: number
  readonly because: WhyEnd
}

/**
 * Why an ending is best, of the larger part of what may be wrong: nothing that may be done here cures it; that would
 * cost more than ending; it could be mended, were it clear what it is.
 */
type WhyEnd = 'no-fix-here' | 'dearer-here' | 'not-clear'

interface Look {
  readonly cost: number
  /** is the look by itself expected to save more than it costs? */
  readonly pays: boolean
  readonly outcomes: readonly Outcome[]
}

/** The trees are grown when somebody asks: a plan that is only carried out hardly ever does. */
export function planOutlook(problem: PlanProblem, start: PlanState): PlanOutlook {
  const cache: ClassCache = new Map()
  const known = new Map<PlanState, Look | null>()
  const lookAt = (state: PlanState): Look | null => {
    let look = known.get(state)
    if (look === undefined) known.set(state, (look = bestLook(problem, state, cache)))
    return look
  }
  const { first } = fixOrder(problem, start)
  const further = lazily(() => {
    const sums = { changes: 0, cost: 0, looks: 0 }
    const lookFurther = (state: PlanState, p: number, depth: number): void => {
      const look = depth < tree.deep && p >= tree.rare ? lookAt(state) : null
      if (!look) return
      sums.looks += p
      sums.cost += p * look.cost
      for (const { state: after, probability } of look.outcomes)
        if (!after || fixOrder(problem, after).first !== first) sums.changes += p * probability
        else lookFurther(after, p * probability, depth + 1)
    }
    lookFurther(start, 1, 0)
    return sums
  })
  const planned = (state: PlanState, p: number, depth: number): number => {
    const look = depth < tree.deep && p >= tree.rare ? lookAt(state) : null
    if (!look?.pays) return 0
    return look.outcomes.reduce(
      (sum, o) => (o.state ? sum + planned(o.state, p * o.probability, depth + 1) : sum),
      p,
    )
  }
  const looks = lazily(() => planned(start, 1, 0))
  const because = lazily(() => whyEnd(problem, start))
  return {
    fix: first,
    end: endNow(problem, start.weights).end,
    get changes() {
      return Math.min(1, further().changes)
    },
    get cost() {
      return further().cost
    },
    get further() {
      return further().looks
    },
    get looks() {
      return looks()
    },
    get because() {
      return because()
    },
  }
}

function bestLook(problem: PlanProblem, state: PlanState, cache: ClassCache): Look | null {
  const now = fixOrder(problem, state).cost
  let best: Look | null = null
  let least = Infinity
  for (const { step } of offersOf(problem, state, cache).slice(0, tree.wide)) {
    const cost = actionCost(problem, step, state.standing)
    const outcomes = outcomesOf(problem, state, step, tree.cells)
    const value = outcomes.reduce(
      (sum, o) => sum + o.probability * (o.state ? fixOrder(problem, o.state).cost : problem.stopCost),
      cost,
    )
    if (value < least) best = { cost, pays: (least = value) < now, outcomes }
  }
  return best
}

function whyEnd(problem: PlanProblem, state: PlanState): WhyEnd {
  const share: Record<WhyEnd, number> = { 'no-fix-here': 0, 'dearer-here': 0, 'not-clear': 0 }
  state.weights.forEach((weight, h) => {
    if (weight === 0) return
    const { plan } = knownCost(problem, state, h)
    const why: WhyEnd =
      plan !== 'end' ? 'not-clear' : mendable(problem, state, h) ? 'dearer-here' : 'no-fix-here'
    share[why] += weight
  })
  return (Object.keys(share) as WhyEnd[]).reduce((most, why) => (share[why] > share[most] ? why : most))
}

/** Is there an untried fix that may be done here for each cause? */
function mendable({ sets, fixesOf }: PlanProblem, { tried, cured }: PlanState, h: number): boolean {
  return sets[h]!.every((c) => {
    if (cured[c]) return true
    for (let k = fixesOf.at[c]!; k < fixesOf.at[c + 1]!; k++) if (!tried[fixesOf.items[k]!]) return true
    return false
  })
}
