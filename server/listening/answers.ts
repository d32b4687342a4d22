/** What was heard as answers to the questions that sound can settle. */
import type { Heard } from './heard.js'

/** A question of a step, as far as sound can answer it. `field` is where its answer goes. */
export interface HeardQuestion {
  readonly field: string
  readonly what: 'rate' | 'droop' | 'sinks' | 'drop-outs' | 'rhythm' | 'beat'
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
      return sinks(heard, question.atLeast ?? 0)
    case 'drop-outs':
      return yes(heard.dropOuts.length >= (question.atLeast ?? 1))
    case 'rhythm':
      return yes(heard.inRhythm)
    case 'beat':
      return yes(heard.beat !== null)
  }
}

/** Percent in ten seconds; only if the doubt about the slope leaves it standing. */
function sinks({ drift }: Heard, atLeast: number): HeardAnswer {
  if (!drift) return 'cant-tell'
  const [fell, doubt] = [-drift.percent / 6, drift.plusMinus / 6]
  if (fell >= atLeast) return fell - doubt > 0 ? 'yes' : 'cant-tell'
  return fell + doubt < atLeast || doubt < atLeast ? 'no' : 'cant-tell'
}

const tenths = (value: number) => Math.round(10 * value) / 10
