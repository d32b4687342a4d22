/**
 * The answer that fits the others least, to be looked at once more: "earlier you said …; look once more".
 *
 * An answer o has the chance p = P(o | all other answers) where it was told as it is. With a share ε of slips,
 *
 *     P(a slip | all answers) = ε·(1 − p) / (ε·(1 − p) + (1 − ε)·p) ,
 *
 * so the most surprising answer is the likeliest slip. It is offered only where a slip is likely enough, and where
 * turning it round would put a cause first that takes another fix: else a second look changes nothing that is done.
 * Tried: only what the others speak against, as well. With one answer in twenty wrong that righted next to nothing,
 * for it is the rare sign seen by mistake that leads astray, and nothing speaks against that one.
 */
import type { Doubt } from '../../shared/diagnosis.js'
import { comparisonsOf } from '../../shared/conditions.js'
import type { KindModel } from './model.js'
import type { Observation, Tried } from './noisy-or.js'
import type { Weights } from './posterior.js'
import { leavingOut } from './weights.js'

/** Share of answers told the wrong way round. Method: the share that the robustness of the proof is held to. */
const slips = 0.05

/** Least chance of a slip that is worth another look. Method: one in four; below, most second looks are in vain. */
const least = 0.25

/**
 * @param sure questions whose answers are not doubted: what was told unasked, and what was looked at twice
 * @returns null where every answer fits well enough, or where none could change what is done
 */
export function doubtOf(
  model: KindModel,
  observations: readonly Observation[],
  tried: readonly Tried[],
  all: Weights,
  sure: readonly string[],
): Doubt | null {
  const without = leavingOut(model, observations, tried, all)
  const whole = without(null)
  const first = leader(whole.there)
  const dangers = new Set(model.stops.flatMap(({ when }) => comparisonsOf(when).map(({ fact }) => fact)))
  let doubt: Doubt | null = null
  for (const observation of observations) {
    const { id } = model.findings[observation.finding]!
    const question = model.questionOf[observation.finding]!
    // a danger sign has a question of its own before it is taken back
    if (dangers.has(id) || sure.includes(question)) continue
    const less = without(observation)
    const chance = Math.min(1, whole.trouble / less.trouble)
    const slip = (slips * (1 - chance)) / (slips * (1 - chance) + (1 - slips) * chance)
    if (slip < least || slip <= (doubt?.slip ?? 0)) continue
    // the other way round: what is left of the weights once those with this answer are taken away
    const turned = less.there.map((weight, c) => weight - whole.there[c]!)
    const then = leader(turned)
    if (then === first || fixFor(model, then) === fixFor(model, first)) continue
    doubt = { finding: id, question, said: observation.present, slip, leads: model.causes[then]!.id }
  }
  return doubt
}

/** The fix that cures it best; itself where none does. */
function fixFor({ causes, fixes }: KindModel, cause: number): string {
  const { id } = causes[cause]!
  let best: KindModel['fixes'][number] | undefined
  for (const fix of fixes) if ((fix.cures[id] ?? 0) > (best?.cures[id] ?? 0)) best = fix
  return best?.id ?? id
}

function leader(there: Float64Array): number {
  let first = 0
  there.forEach((weight, c) => {
    if (weight > there[first]!) first = c
  })
  return first
}
