/**
 * The slow way to the posterior: every state of every cause, one after the other, weighed and added up. No
 * tables, no shared parts with the program but the shapes of its input.
 */
import type { NoisyOrModel, Observation, Tried } from '../../server/diagnosis/noisy-or.js'

export interface Enumerated {
  readonly trouble: number
  readonly none: number
  readonly there: readonly number[]
  readonly sole: readonly number[]
}

/** What became of one cause: how many fixes were done when it went; never there 0, still there Infinity. */
type Fate = number

export function enumerated(
  model: NoisyOrModel,
  observations: readonly Observation[],
  tried: readonly Tried[],
): Enumerated {
  const n = model.priors.length
  const there = Array<number>(n).fill(0)
  const sole = Array<number>(n).fill(0)
  let trouble = 0
  let none = 0

  const settle = (fates: readonly Fate[], chance: number, missed: readonly number[]) => {
    const happened = fates.flatMap((fate, i) => (fate > 0 ? [i] : []))
    if (happened.length > 1 && happened.some((i) => model.exclusive[i])) return
    const weight = observations.reduce(
      (w, o, k) => w * (o.present ? -Math.expm1(missed[k]!) : Math.exp(missed[k]!)),
      chance,
    )
    const still = happened.filter((i) => fates[i] === Infinity)
    if (still.length === 0) none += weight
    else trouble += weight
    for (const i of still) there[i]! += weight
    if (still.length === 1) sole[still[0]!]! += weight
  }

  /**
   * `missed[k]`: logarithm of the chance that nothing decided so far makes observation k true. A logarithm,
   * because 1 less such a chance would lose its digits where strengths are tiny.
   */
  const decide = (i: number, fates: readonly Fate[], chance: number, missed: readonly number[]): void => {
    if (chance === 0) return
    if (i === n) return settle(fates, chance, missed)
    decide(i + 1, [...fates, 0], chance * (1 - model.priors[i]!), missed)
    const become = (fate: Fate, p: number) => {
      const now = missed.map((q, k) => {
        const { finding, after } = observations[k]!
        return after < fate ? q + Math.log1p(-model.strengths[finding]![i]!) : q
      })
      decide(i + 1, [...fates, fate], chance * p, now)
    }
    let left = model.priors[i]!
    tried.forEach((cures, k) => {
      const g = cures[i] ?? 0
      if (g > 0) become(k + 1, left * g)
      left *= 1 - g
    })
    become(Infinity, left)
  }
  decide(
    0,
    [],
    1,
    observations.map((o) => Math.log1p(-model.leaks[o.finding]!)),
  )
  return { trouble, none, there, sole }
}
