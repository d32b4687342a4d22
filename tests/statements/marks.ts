/** How well statements are found in what people say: the marks, one number each. */
import type { Knowledge } from '../../shared/knowledge.js'
import { statementsMeant } from '../../server/statements/statements.js'
import type { Complaint } from './complaint.js'

export interface Marks {
  readonly count: number
  /** share with a right statement first; nothing offered is right where nothing was meant */
  readonly first: number
  readonly amongThree: number
  /** share where a danger that nobody meant comes first */
  readonly wrongDanger: number
}

export function marksOf(knowledge: Knowledge, complaints: readonly Complaint[]): Marks {
  const dangers = dangersOf(knowledge)
  const told = complaints.map(({ kind, words, means }) => {
    const offered = statementsMeant(knowledge, kind, words).map(({ id }) => id)
    const right = (those: readonly string[]) =>
      means.length === 0 ? those.length === 0 : those.some((id) => means.includes(id))
    const [first] = offered
    return {
      first: right(offered.slice(0, 1)),
      amongThree: right(offered.slice(0, 3)),
      wrongDanger: first !== undefined && dangers.has(first) && !means.includes(first),
    }
  })
  const share = (of: keyof (typeof told)[number]) => told.filter((it) => it[of]).length / told.length
  return {
    count: told.length,
    first: share('first'),
    amongThree: share('amongThree'),
    wrongDanger: share('wrongDanger'),
  }
}

/** Questions that a danger step asks. */
export const dangersOf = ({ steps }: Knowledge): ReadonlySet<string> =>
  new Set(
    steps.filter(({ form }) => form === 'danger').flatMap(({ questions }) => questions.map(({ id }) => id)),
  )
