/**
 * What it costs to take one cause for another: the money that goes into a fix, or into sending in, while the trouble
 * is something that it does not end.
 *
 * Not counted from who was right by luck, but expected over all that may be wrong at the moment of choosing, which
 * comes out the same on average with far less noise (Rao-Blackwell; Casella & Robert, Biometrika 83, 1996).
 */
import { knownCost } from '../../server/diagnosis/plan/fix-order.js'
import type { Act } from '../../server/simulation/course.js'

/** By `cause>takenFor`, positions: money. */
export type Losses = Map<string, number>

/** Adds what is expected to be lost by an action; asking is never lost. */
export function addLosses(losses: Losses, { choice, cost, problem, state }: Act): void {
  if (choice.kind === 'step') return
  const meant = new Float64Array(problem.causes)
  const wasted: { h: number; money: number }[] = []
  state.weights.forEach((weight, h) => {
    if (weight === 0) return
    const set = problem.sets[h]!
    if (choice.kind === 'fix') {
      const cures = problem.fixes[choice.index]!.cures
      const cured = set.filter((c) => (cures.get(c) ?? 0) > 0)
      for (const c of cured) meant[c]! += weight
      if (cured.length === 0) wasted.push({ h, money: weight * cost })
    } else {
      const known = knownCost(problem, state, h)
      if (known.plan === 'end') for (const c of set) meant[c]! += weight
      else wasted.push({ h, money: weight * Math.max(0, problem.ends[choice.index]![h]! - known.cost) })
    }
  })
  const takenFor = meant.indexOf(Math.max(...meant))
  if (meant[takenFor] === 0) return // sent in because nothing pays, not because something was mistaken
  for (const { h, money } of wasted) {
    const set = problem.sets[h]!
    if (set.includes(takenFor)) continue // it is there, only the plan for it is another one
    for (const cause of set) {
      const key = `${cause}>${takenFor}`
      losses.set(key, (losses.get(key) ?? 0) + money / set.length)
    }
  }
}
