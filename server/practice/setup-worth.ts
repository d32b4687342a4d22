/** What getting a tool ready, or putting it back, is worth by itself: the plan before it and after it. */
import type { PracticeMove } from '../../shared/practice.js'
import type { Situation } from '../../shared/situation.js'
import { setupsNeeded } from '../../shared/setups-needed.js'
import type { Desk } from './desk.js'
import type { PlanAt, Worth } from './plan-at.js'
import { planAt } from './plan-at.js'
import { missingSetups, sumMinutes } from './prices.js'

/**
 * A set-up that the plan's own next action needs costs nothing, and so does putting back what it does not need; any
 * other is worth its price and what the plan expects with it standing, or gone.
 *
 * @param after the situation that it leads to
 */
export async function setupWorth(
  desk: Desk,
  plan: PlanAt,
  move: Extract<PracticeMove, { type: 'stood' | 'put-back' }>,
  after: Situation,
): Promise<Worth> {
  const { model } = desk.kind
  const { best, danger, situation } = plan
  const worth = (value: number): Worth => ({ value, plan: best.value, loss: Math.max(0, value - best.value) })
  const action =
    best.kind === 'step' ? model.steps[best.index] : best.kind === 'fix' ? model.fixes[best.index] : undefined
  const needed = setupsNeeded(model.setups, [...(action?.setups ?? []), ...(danger?.setups ?? [])]).map(
    ({ id }) => id,
  )
  if (move.type === 'stood') {
    if (needed.includes(move.setup)) return worth(best.value)
    const price = sumMinutes(missingSetups(model, [move.setup], situation.standing)) * desk.shop.rate
    return worth(price + (await planAt(desk, after)).best.value)
  }
  const gone = situation.standing.filter((id) => !after.standing.includes(id))
  if (!gone.some((id) => needed.includes(id))) return worth(best.value)
  return worth((await planAt(desk, after)).best.value)
}
