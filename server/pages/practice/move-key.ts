/** A move as the value of one field of a form, such as `looked/<step>/<question>`, and back. */
import { PracticeMove } from '../../../shared/practice.js'

/** @param move any but points, which have fields of their own */
export function keyOf(move: Exclude<PracticeMove, { type: 'spread' }>): string {
  const { type, ...what } = move
  return [type, ...Object.values(what)].join('/')
}

const fields: Readonly<Record<Exclude<PracticeMove['type'], 'spread'>, readonly string[]>> = {
  stood: ['setup'],
  'put-back': ['setup'],
  looked: ['step', 'question'],
  tried: ['fix'],
  disinfected: [],
  'made-safe': ['stop'],
  dared: ['act'],
  ended: ['way'],
}

/** @returns undefined where the text is no move */
export function moveFrom(text: string): Exclude<PracticeMove, { type: 'spread' }> | undefined {
  const [type = '', ...values] = text.split('/')
  const names = Object.hasOwn(fields, type) ? fields[type as keyof typeof fields] : undefined
  if (!names || values.length > names.length) return undefined
  const read = PracticeMove.safeParse({
    type,
    ...Object.fromEntries(values.map((value, k) => [names[k], value])),
  })
  return read.success && read.data.type !== 'spread' ? read.data : undefined
}
