/** The answers that ride in the address of the identify pages: read, and written into links. */
import type { Knowledge } from '../../shared/knowledge.js'
import type { SignAnswer } from '../identify/kind-odds.js'
import type { Problem, Sent } from './answer-form.js'
import { textsOf } from './answer-form.js'

/** What was said so far, in the order in which it was asked. */
export interface SaidOfSigns {
  /** may the tool hurt? null until that is answered; it is asked before a look that switches it on */
  readonly mayHurt: SignAnswer | null
  readonly answers: readonly { readonly sign: string; readonly answer: SignAnswer }[]
  /** a sign to be asked again, or `mayHurtField` */
  readonly change: string | null
}

export const identifyPath = '/identify'
export const mayHurtField = 'hurt'
const changeField = 'change'

/** Field name of a sign. */
export const signField = (sign: string): string => `s-${sign}`

const isAnswer = (text: string): text is SignAnswer => text === 'yes' || text === 'no' || text === 'cant-tell'

/** Reads an address. What cannot be understood is left out and told of; the rest stands. */
export function signsSaid(
  { signs }: Pick<Knowledge, 'signs'>,
  query: Sent,
): { readonly said: SaidOfSigns; readonly problems: readonly Problem[] } {
  const problems: Problem[] = []
  const known = new Set(signs.map(({ id }) => signField(id)))
  const valueOf = (field: string): SignAnswer | null => {
    const text = textsOf(query, field).at(-1)
    if (text === undefined) return null
    if (isAnswer(text)) return text
    problems.push({
      field: 'said',
      message: `The address of this page answers “${field}” with “${shown(text)}”, which is no answer. It was left out: answer it again`,
    })
    return null
  }
  const mayHurt = valueOf(mayHurtField)
  const fields = Object.keys(query).filter((field) => field.startsWith(signField('')))
  const answers = fields.flatMap((field) => {
    if (!known.has(field)) {
      problems.push({
        field: 'said',
        message: `The address of this page names “${shown(field)}”, which is not asked here. It was left out: go on with the rest`,
      })
      return []
    }
    const answer = valueOf(field)
    return answer === null ? [] : [{ sign: field.slice(signField('').length), answer }]
  })
  const change = textsOf(query, changeField).at(-1) ?? null
  const changes = change === mayHurtField || signs.some(({ id }) => id === change)
  return { said: { mayHurt, answers, change: changes ? change : null }, problems }
}

/** Somebody's own words in an error, cut to a length that a page holds. */
function shown(text: string): string {
  return text.length <= 40 ? text : `${text.slice(0, 40)}…`
}

/** The answers as fields of a form, without the one that the form asks for. */
export function fieldsOf(
  { mayHurt, answers }: SaidOfSigns,
  asked: string,
): readonly { readonly name: string; readonly value: string }[] {
  const fields = answers.map(({ sign, answer }) => ({ name: signField(sign), value: answer }))
  return [...(mayHurt === null ? [] : [{ name: mayHurtField, value: mayHurt }]), ...fields].filter(
    ({ name }) => name !== asked,
  )
}

/** The address at which one answer is asked for again, all others kept. */
export function changeHref(said: SaidOfSigns, change: string): string {
  const query = new URLSearchParams(
    fieldsOf(said, '').map(({ name, value }): [string, string] => [name, value]),
  )
  query.append(changeField, change)
  return `${identifyPath}?${query.toString()}`
}
