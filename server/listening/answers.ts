/** What was heard as answers to the questions that sound can settle. */
import type { Heard } from './heard.js'

/** A question of a step, as far as sound can answer it. `field` is where its answer goes. */
export interface HeardQuestion {
  readonly field: string
  readonly what: 'rate' | 'droop' | 'sinks' | 'drop-outs' | 'rhythm' | 'beat' | 'falls' | 'grows' | 'fades'
  readonly atLeast: number | null
}

/** A number has one decimal, as a hand would type it. */
export type HeardAnswer = 'yes' | 'no' | 'cant-tell' | number

/**
 * @param reference strokes a minute that it should make: of its plate, its manual or its twin; null if nobody knows
 */
export function answersTo(
  questions: readonly HeardQuestion[],
  heard: Heard,
  reference: number | null,
): ReadonlyMap<string, HeardAnswer> {
  return new Map(questions.map((question) => [question.field, answerTo(question, heard, reference)]))
}

function answerTo(question: HeardQuestion, heard: Heard, reference: number | null): HeardAnswer {
  if (!heard.rate) return 'cant-tell'
  const yes = (is: boolean) => (is ? 'yes' : 'no')
  switch (question.what) {
    case 'rate':
      return reference === null ? 'cant-tell' : tenths((100 * heard.rate.perMinute) / reference)
    case 'droop':
      return tenths(heard.droop?.percent ?? 0)
    case 'sinks':
      return reaches(part(heard.drift, -1 / 6), question.atLeast ?? 0)
    case 'falls':
      return falls(heard)
    case 'grows':
      return reaches(part(heard.noise, 1), question.atLeast ?? 0)
    case 'fades':
      return reaches(part(heard.loudness, -1), question.atLeast ?? 0)
    case 'drop-outs':
      return yes(heard.dropOuts.length >= (question.atLeast ?? 1))
    case 'rhythm':
      return yes(heard.inRhythm)
    case 'beat':
      return yes(heard.beat !== null)
  }
}

interface Moved {
  readonly by: number
  readonly doubt: number
}

/** So much of a change over a minute, counted in its own direction. */
function part(change: Heard['drift'] | Heard['noise'], share: number): Moved | null {
  if (!change) return null
  const by = 'percent' in change ? change.percent : change.decibels
  return { by: share * by, doubt: Math.abs(share) * change.plusMinus }
}

/** Yes only if the doubt leaves it standing, no only if the doubt does not reach so far. */
function reaches(moved: Moved | null, atLeast: number): HeardAnswer {
  if (!moved) return 'cant-tell'
  const { by, doubt } = moved
  if (by >= atLeast) return by - doubt > 0 ? 'yes' : 'cant-tell'
  return by + doubt < atLeast || doubt < atLeast ? 'no' : 'cant-tell'
}

/** Percent in a minute: what a shorter recording would have to guess is not told. */
function falls({ drift, noise }: Heard): HeardAnswer {
  if (!drift || !noise) return 'cant-tell'
  return tenths(Math.max(0, -drift.percent))
}

const tenths = (value: number) => Math.round(10 * value) / 10
