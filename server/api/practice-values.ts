/** What an instructor asked for that cannot be had, each value with its place. */
import { bookOf } from '../../shared/book-of-kind.js'
import type { Knowledge } from '../../shared/knowledge.js'
import type { SetForClass } from '../../shared/practice-api.js'
import type { ValueProblem } from '../errors.js'
import type { FirstHeard } from '../practice/first-heard.js'
import { kindsOf } from '../practice/level-book.js'
import type { ApiProblem } from './problems.js'
import { notAcceptable } from './problems.js'

/** Values that the rulebook does not have, or not together. */
export function unknownIn(
  knowledge: Knowledge,
  { level: levelId, kind, causes = [] }: Pick<SetForClass, 'level' | 'kind' | 'causes'>,
): ValueProblem[] {
  const level = knowledge.levels.find(({ id }) => id === levelId)
  if (!level) return [{ path: ['level'], message: 'is no level here; GET /api/practice/levels lists them' }]
  if (kind === undefined)
    return causes.length === 0
      ? []
      : [{ path: ['kind'], message: 'say which kind it is: its causes go by it' }]
  if (!kindsOf(knowledge, level).includes(kind))
    return [{ path: ['kind'], message: `is no kind of the level "${level.id}"` }]
  const known = new Set(bookOf(knowledge, kind).causes.map(({ id }) => id))
  return causes.flatMap((id, k) => {
    if (!known.has(id))
      return [{ path: ['causes', String(k)], message: 'is nothing that this kind can have' }]
    return causes.indexOf(id) < k ? [{ path: ['causes', String(k)], message: 'is there already' }] : []
  })
}

/** Why no tool could be drawn. */
export function unfit(
  because: (FirstHeard & { ok: false })['because'],
  { causes }: Pick<SetForClass, 'causes'>,
): ApiProblem {
  const [field, message] =
    because === 'alone'
      ? ['causes', 'one of these excludes all others: leave it alone, or leave it out']
      : causes
        ? ['causes', 'these show nothing that a client would complain of: choose others, or one more']
        : ['seed', 'with this number nothing shows that a client would complain of: take another']
  return notAcceptable([{ path: [field], message }])
}
