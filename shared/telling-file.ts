/** What it takes to tell the answer to a question, and how often a person at the bench can. */
import { z } from 'zod'
import { Chance, Note, Schema, Sentence, Source } from './rule-fields.js'

/**
 * `phone`: a phone listens to it; `spare`: a second tool, supply or blade to try it with; `open-body`: something is taken
 * apart for it.
 */
export const ToldBy = z.enum(['memory', 'look', 'feel', 'ear', 'phone', 'run', 'meter', 'spare', 'open-body'])
export type ToldBy = z.infer<typeof ToldBy>

/** One such way to tell; the file's name is which. */
export const TellingFile = z.strictObject({
  $schema: Schema,
  what: Sentence.describe('what it takes'),
  chance: Chance.describe('share of people at this bench who, asked such a question, can answer it'),
  source: Source,
  note: Note,
})

interface Asked {
  readonly kind: 'yes-no' | 'number'
  readonly sense?: 'hands' | 'eyes' | 'ears' | 'nose' | 'story' | undefined
  readonly toldBy?: ToldBy | undefined
  readonly heard?: object | undefined
}
interface Asking {
  readonly form: 'danger' | 'ask' | 'check'
  readonly power: boolean
  readonly setups: readonly string[]
}

/**
 * How a question is told, where it does not say so itself: what sound answers by a phone, a number by a meter, what lies behind a set-up of more than
 * the first skill by opening, a check under power by the run, the rest by its sense; without one, what is only asked by
 * memory and what is checked by a look.
 */
export function toldBy(
  question: Asked,
  step: Asking,
  setups: readonly { readonly id: string; readonly skill: string }[],
): ToldBy {
  if (question.toldBy) return question.toldBy
  if (question.heard) return 'phone'
  if (question.kind === 'number') return 'meter'
  if (setups.some(({ id, skill }) => step.setups.includes(id) && skill !== 'S1')) return 'open-body'
  if (step.power) return 'run'
  if (question.sense) return bySense[question.sense]
  return step.form === 'ask' ? 'memory' : 'look'
}

const bySense = { hands: 'feel', eyes: 'look', ears: 'ear', nose: 'feel', story: 'memory' } as const
