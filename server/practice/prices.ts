/** What a move takes: a trained hand's minutes, and parts in money. */
import type { Fix, Question, Step } from '../../shared/knowledge.js'
import type { KindModel } from '../diagnosis/model.js'
import { setupsOf } from '../diagnosis/policy.js'

/** The hand's own minutes for wiping, wetting, drying and oiling; the wet time on the label runs by itself. */
export const disinfectMinutes = 2
/** A bad habit is quick: that is why it is one. */
export const dareMinutes = 1

/** To read a question out and hear the answer; twelve seconds. */
const leastTalk = 0.2

/** Set-ups that an action needs and that do not stand, in the order of work. */
export function missingSetups(
  model: KindModel,
  needed: readonly string[],
  standing: readonly string[],
): readonly { readonly id: string; readonly minutes: number }[] {
  return setupsOf(model, needed).filter(({ id }) => !standing.includes(id))
}

export const sumMinutes = (things: readonly { readonly minutes: number }[]): number =>
  things.reduce((sum, { minutes }) => sum + minutes, 0)

/**
 * Minutes of a step without its set-ups. One question out of several that are only talk takes its share of the time,
 * twelve seconds at least; a check takes the hand all of it, however little one looks at.
 */
export const stepMinutes = (step: Step, question?: Question): number =>
  question && step.form !== 'check'
    ? Math.min(step.minutes, Math.max(leastTalk, step.minutes / step.questions.length))
    : step.minutes

export const partsCost = (fix: Fix): number => fix.parts.reduce((sum, { cost }) => sum + cost, 0)
