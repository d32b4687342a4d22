/** Whoever plays as the plan would: the measure of every score, and what the debrief shows beside each move. */
import type { PracticeMove, Spread } from '../../shared/practice.js'
import { stepOfPoints } from '../../shared/practice.js'
import { setupsNeeded } from '../../shared/setups-needed.js'
import { waysToEnd } from '../diagnosis/plan/build.js'
import type { Desk, BenchState } from './desk.js'
import { findingsAt, isMended } from './desk.js'
import { liftable, planAt } from './plan-at.js'
import { slipsOf } from './slips.js'

/** The move that the plan would make here, set-ups as moves of their own, outermost first. */
export async function plansMove(desk: Desk, standing: BenchState): Promise<PracticeMove> {
  const move = await nextMove(desk, standing)
  if (move.type !== 'looked' && move.type !== 'tried') return move
  const { model } = desk.kind
  const action =
    move.type === 'looked'
      ? model.steps.find(({ id }) => id === move.step)!
      : model.fixes.find(({ id }) => id === move.fix)!
  const missing = setupsNeeded(model.setups, action.setups).find(
    ({ id }) => !standing.situation.standing.includes(id),
  )
  if (missing) return { type: 'stood', setup: missing.id }
  const slips = await slipsOf(desk, standing, move)
  return slips.length > 0 && !standing.disinfected ? { type: 'disinfected' } : move
}

async function nextMove(desk: Desk, standing: BenchState): Promise<PracticeMove> {
  const { situation } = standing
  const { stops } = await findingsAt(desk, situation)
  if (isMended(standing)) {
    if (stops.some(({ grade }) => grade === 'set-aside')) return { type: 'ended', way: 'set-aside' }
    if (!standing.disinfected) return { type: 'disinfected' }
    const [stop] = liftable(stops)
    return stop ? { type: 'made-safe', stop: stop.id } : { type: 'ended', way: 'hand-back' }
  }
  const { model } = desk.kind
  const plan = await planAt(desk, situation)
  if (plan.stop) return { type: 'ended', way: 'set-aside' }
  if (plan.danger) return { type: 'looked', step: plan.danger.id }
  if (plan.best.kind === 'step') return { type: 'looked', step: model.steps[plan.best.index]!.id }
  if (plan.best.kind === 'fix') return { type: 'tried', fix: model.fixes[plan.best.index]!.id }
  return { type: 'ended', way: waysToEnd[plan.best.index] === 'send-in' ? 'send-in' : 'set-aside' }
}

/**
 * Points as the scores have them: chances of the causes, scaled to 100, whole steps to each and the left-over steps
 * to the greatest remainders (Hamilton's method); causes below half a step go to "something else".
 */
export async function plansSpread(desk: Desk, standing: BenchState): Promise<Spread> {
  const { weights } = await planAt(desk, standing.situation)
  const { model } = desk.kind
  const total = weights.there.reduce((sum, w) => sum + w, 0)
  const steps = 100 / stepOfPoints
  const named = model.causes.flatMap(({ id }, c) => {
    const share = (weights.there[c]! / total) * steps
    return share >= 0.5 ? [{ id, share }] : []
  })
  const rest = { id: '', share: steps - named.reduce((sum, { share }) => sum + share, 0) }
  const all = [...named, rest].map((it) => ({ ...it, whole: Math.floor(it.share + 1e-9) }))
  const left = steps - all.reduce((sum, { whole }) => sum + whole, 0)
  const byRemainder = [...all].sort((a, b) => b.share - b.whole - (a.share - a.whole))
  for (const it of byRemainder.slice(0, left)) it.whole++
  const points = all
    .filter(({ id, whole }) => id !== '' && whole > 0)
    .map(({ id, whole }) => [id, whole * stepOfPoints] as const)
  return {
    points: Object.fromEntries(points),
    other: all.find(({ id }) => id === '')!.whole * stepOfPoints,
  }
}
