/**
 * The scoring model: independent causes and leaky noisy-OR findings (Pearl 1988, ch. 4.3; Henrion 1989).
 *
 *     P(f true | S) = 1 − (1 − leak_f) · Π_{i∈S} (1 − s_fi)
 *
 * Plain numbers, indexed by position, so that published networks can be scored by the same code.
 */

/** Probabilities in [0, 1]; `strengths[f][i]` = P(f true | cause i alone, no leak). */
export interface NoisyOrModel {
  readonly priors: readonly number[]
  /** causes that exclude all others ("nothing wrong") */
  readonly exclusive: readonly boolean[]
  readonly leaks: readonly number[]
  readonly strengths: readonly (readonly number[])[]
}

/** One finding seen to be there or not; `after` = how many of the tried fixes were done by then. */
export interface Observation {
  readonly finding: number
  readonly present: boolean
  readonly after: number
  /** position among the fixes tried of the one that this tells of, done before the case */
  readonly tells?: number
}

/** A fix that was tried and did not end the trouble: its chance to cure each cause, in [0, 1]. */
export type Tried = readonly number[]

/**
 * What one cause can be: there now, cured by one of the tried fixes, or absent. `seesUpTo` = the cause was
 * there while fewer than so many fixes were done (Infinity: it still is); `weight` is a probability.
 */
export interface CauseState {
  readonly weight: number
  readonly seesUpTo: number
}

/** States of a cause besides absent: still there first, then cured at each tried fix that can cure it. */
export function statesOf(prior: number, cause: number, tried: readonly Tried[]): CauseState[] {
  const cured: CauseState[] = []
  let remaining = prior
  tried.forEach((cures, index) => {
    const chance = cures[cause] ?? 0
    if (chance > 0) cured.push({ weight: remaining * chance, seesUpTo: index + 1 })
    remaining *= 1 - chance
  })
  return [{ weight: remaining, seesUpTo: Infinity }, ...cured]
}

/** Did a cause in this state show itself when the observation was made? */
export const seenBy = (state: CauseState, observation: Observation): boolean =>
  observation.after < state.seesUpTo

export const isStillThere = (state: CauseState): boolean => state.seesUpTo === Infinity

/** `weight` times the chance that a cause in this state trips none of these negative findings. */
export function havingMissed(
  weight: number,
  model: NoisyOrModel,
  cause: number,
  state: CauseState,
  negatives: readonly Observation[],
): number {
  for (const o of negatives) if (seenBy(state, o)) weight *= 1 - model.strengths[o.finding]![cause]!
  return weight
}

/** Weight of each state of a cause (still there first) with every other cause absent. */
export function weightsAlone(
  model: NoisyOrModel,
  cause: number,
  observations: readonly Observation[],
  tried: readonly Tried[],
): number[] {
  const others = model.priors.reduce((w, p, i) => (i === cause ? w : w * (1 - p)), 1)
  return statesOf(model.priors[cause]!, cause, tried).map((state) => {
    let weight = others * state.weight
    for (const o of observations) {
      const s = seenBy(state, o) ? model.strengths[o.finding]![cause]! : 0
      const miss = (1 - model.leaks[o.finding]!) * (1 - s)
      weight *= o.present ? 1 - miss : miss
    }
    return weight
  })
}
