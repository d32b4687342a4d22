/**
 * The answer that fits the others least, to be looked at once more: "earlier you said …; look once more".
 *
 * An answer o has the chance p = P(o | all other answers) where it was told as it is. With a share ε of slips,
 *
 *     P(a slip | all answers) = ε·(1 − p) / (ε·(1 − p) + (1 − ε)·p) ,
 *
 * so the most surprising answer is the likeliest slip. It is offered only where the others speak against it (what is
 * merely rare is no slip), where a slip is likely enough, and where turning it round would put another cause first:
 * else a second look changes nothing that is done.
 */
import type { Doubt } from '../../shared/diagnosis.js'
import { comparisonsOf } from '../../shared/conditions.js'
import type { KindModel } from './model.js'
import type { Observation, Tried } from './noisy-or.js'
import type { Weights } from './posterior.js'
import { weigh } from './posterior.js'
import { leavingOut } from './weights.js'

/** Share of answers told the wrong way round. Method: the share that the robustness of the proof is held to. */
const slips = 0.05

/** Least chance of a slip that is worth another look. Method: one in four; below, most second looks are in vain. */
const least = 0.25

/** The others speak against an answer where they make it less likely by this factor, 5 decibans. Method. */
const against = 10 ** -0.5

/** @returns null where every answer fits well enough, or where none could change what comes first */
export function doubtOf(
  model: KindModel,
  observations: readonly Observation[],
  tried: readonly Tried[],
  all: Weights,
): Doubt | null {
  const without = leavingOut(model, observations, tried, all)
  const whole = without(null)
  const first = leader(whole.there)
  const dangers = new Set(model.stops.flatMap(({ when }) => comparisonsOf(when).map(({ fact }) => fact)))
  let doubt: Doubt | null = null
  for (const observation of observations) {
    const { id } = model.findings[observation.finding]!
    // a danger sign has a question of its own before it is taken back
    if (dangers.has(id)) continue
    const less = without(observation)
    const chance = Math.min(1, whole.trouble / less.trouble)
    if (chance > against * chanceAlone(model, observation)) continue
    const slip = (slips * (1 - chance)) / (slips * (1 - chance) + (1 - slips) * chance)
    if (slip < least || slip <= (doubt?.slip ?? 0)) continue
    // the other way round: what is left of the weights once those with this answer are taken away
    const turned = less.there.map((weight, c) => weight - whole.there[c]!)
    const then = leader(turned)
    if (then === first) continue
    const question = model.questionOf[observation.finding]!
    doubt = { finding: id, question, said: observation.present, slip, leads: model.causes[then]!.id }
  }
  return doubt
}

/** P(this answer), nothing else known. */
const chanceAlone = (model: KindModel, observation: Observation): number =>
  weigh(model, [{ ...observation, after: 0 }], []).trouble / weigh(model, [], []).trouble

function leader(there: Float64Array): number {
  let first = 0
  there.forEach((weight, c) => {
    if (weight > there[first]!) first = c
  })
  return first
}
