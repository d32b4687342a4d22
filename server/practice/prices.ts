/** What a move takes: a trained hand's minutes, and parts in money. */
import type { Fix, Question, Step } from '../../shared/knowledge.js'
import type { PracticeMove } from '../../shared/practice.js'
import { setupsNeeded } from '../../shared/setups-needed.js'
import type { KindModel } from '../diagnosis/model.js'

/** The hand's own minutes for wiping, wetting, drying and oiling; the wet time on the label runs by itself. */
const disinfectMinutes = 2
/** A bad habit is quick: that is why it is one. */
const dareMinutes = 1

/** To read a question out and hear the answer; twelve seconds. */
const leastTalk = 0.2

/** Set-ups that an action needs and that do not stand, in the order of work. */
export function missingSetups(
  model: KindModel,
  needed: readonly string[],
  standing: readonly string[],
): readonly { readonly id: string; readonly minutes: number }[] {
  return setupsNeeded(model.setups, needed).filter(({ id }) => !standing.includes(id))
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

const partsCost = (fix: Fix): number => fix.parts.reduce((sum, { cost }) => sum + cost, 0)

export interface Price {
  readonly minutes: number
  /** money */
  readonly parts: number
}

/** What a move takes with the set-ups that do not stand; for the list of moves, and known before it is made. */
export function priceOf(model: KindModel, standing: readonly string[], move: PracticeMove): Price {
  switch (move.type) {
    case 'stood':
      return { minutes: sumMinutes(missingSetups(model, [move.setup], standing)), parts: 0 }
    case 'looked': {
      const step = model.steps.find(({ id }) => id === move.step)
      if (!step) return nothing
      const question = step.questions.find(({ id }) => id === move.question)
      const setups = sumMinutes(missingSetups(model, step.setups, standing))
      return { minutes: stepMinutes(step, question) + setups, parts: 0 }
    }
    case 'tried': {
      const fix = model.fixes.find(({ id }) => id === move.fix)
      if (!fix) return nothing
      const setups = sumMinutes(missingSetups(model, fix.setups, standing))
      return { minutes: fix.minutes + setups, parts: partsCost(fix) }
    }
    case 'disinfected':
      return { minutes: disinfectMinutes, parts: 0 }
    case 'dared':
      return { minutes: dareMinutes, parts: 0 }
    default:
      return nothing
  }
}

const nothing: Price = { minutes: 0, parts: 0 }
