/** Ways to the short lessons. */
import { bookOf } from '../../../shared/book-of-kind.js'
import type { Knowledge } from '../../../shared/knowledge.js'

/** A link to a lesson. */
export interface LessonLink {
  readonly name: string
  readonly href: string
}

const lessons = '/practice/lessons'

/** The address of a lesson with who learns and, where a lesson is for several kinds, which kind. */
export function lessonHref(path: string, { learner = '', kind = '' } = {}): string {
  const query = new URLSearchParams()
  if (kind !== '') query.set('kind', kind)
  if (learner !== '') query.set('for', learner)
  const asked = query.toString()
  return `${lessons}${path === '' ? '' : `/${path}`}${asked === '' ? '' : `?${asked}`}`
}

/**
 * The lessons that fit causes of a kind: first the parts that these sit in; then the confusions that hold one, those
 * that hold two or more before the others; then hearsay that touches one.
 *
 * @param causes  ids; unknown ones count for nothing
 * @param learner who learns, carried along in the address; empty for nobody
 */
export function lessonsFor(
  knowledge: Knowledge,
  kind: string,
  causes: readonly string[],
  learner = '',
): readonly LessonLink[] {
  const book = bookOf(knowledge, kind)
  const held = (ids: readonly string[]) => ids.filter((id) => causes.includes(id)).length
  const sits = new Set(book.causes.filter(({ id }) => causes.includes(id)).map(({ part }) => part))
  const parts = book.kinds.flatMap((it) => it.parts).filter(({ id }) => sits.has(id))
  const confusions = book.confusions.filter(({ rivals }) => held(rivals) > 0)
  const both = confusions.filter(({ rivals }) => held(rivals) > 1)
  const one = confusions.filter(({ rivals }) => held(rivals) === 1)
  return [
    ...parts.map(({ id, name }) => ({ name, href: lessonHref(`parts/${kind}/${id}`, { learner }) })),
    ...[...both, ...one].map(({ id, name }) => ({
      name,
      href: lessonHref(`confusions/${id}`, { kind, learner }),
    })),
    ...book.hearsay
      .filter((it) => held(it.causes) > 0)
      .map(({ id, name }) => ({ name, href: lessonHref(`hearsay/${id}`, { kind, learner }) })),
  ]
}
