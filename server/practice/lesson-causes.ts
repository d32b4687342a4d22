/** What the exercise after a lesson may be about, and how hard it is. A lesson goes by its path, below that of all lessons. */
import { bookOf } from '../../shared/book-of-kind.js'
import type { Knowledge } from '../../shared/knowledge.js'
import { causesOf, kindsOf } from './level-book.js'

/**
 * Causes that the exercise at the end of a lesson may be about: those that sit in the part, the rivals of the
 * confusion, what the hearsay touches.
 *
 * @param lesson `parts/<kind>/<part>`, `confusions/<id>` or `hearsay/<id>`
 * @param kind   the kind of tool that is practised on
 * @returns ids in rulebook order; none where there is no such lesson for the kind
 */
export function causesOfLesson(knowledge: Knowledge, lesson: string, kind: string): readonly string[] {
  const book = bookOf(knowledge, kind)
  const [shelf, name, part, ...rest] = lesson.split('/')
  if (rest.length > 0) return []
  if (shelf === 'parts')
    return name === kind ? book.causes.filter((it) => it.part === part).map(({ id }) => id) : []
  if (part !== undefined) return []
  const held =
    shelf === 'confusions'
      ? book.confusions.find(({ id }) => id === name)?.rivals
      : shelf === 'hearsay'
        ? book.hearsay.find(({ id }) => id === name)?.causes
        : undefined
  return held ? book.causes.filter(({ id }) => held.includes(id)).map(({ id }) => id) : []
}

/**
 * The level of that exercise: the lowest that has the kind and, of its own, all causes that it may be about. A level
 * that has to take a rare one in for the purpose would give it away, since it stands last in the list of suspects.
 *
 * @returns the level's id; undefined where the lesson has no causes, or no level has them all
 */
export function levelOfLesson(knowledge: Knowledge, lesson: string, kind: string): string | undefined {
  const about = causesOfLesson(knowledge, lesson, kind)
  if (about.length === 0) return undefined
  const nothingSet = { hideSuspects: false, hidePrices: false }
  return [...knowledge.levels]
    .sort((a, b) => a.order - b.order)
    .filter((level) => kindsOf(knowledge, level).includes(kind))
    .find((level) => {
      const may = causesOf(knowledge, level, kind, nothingSet)
      return about.every((cause) => may.includes(cause))
    })?.id
}
