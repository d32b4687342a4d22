/** A lesson that somebody comes from, by what its page is called. */
import { bookOf } from '../../../shared/book-of-kind.js'
import type { Knowledge } from '../../../shared/knowledge.js'

/** What a page carries along from a lesson to the exercise after it. */
export interface Carried {
  /** path of the lesson, below that of all lessons */
  readonly lesson: string
  /** id of a kind, or empty */
  readonly kind: string
}

/** @returns empty where there is no such lesson; its address is then not carried on */
export function lessonName(knowledge: Knowledge, { lesson, kind }: Carried): string {
  const [shelf, id, part] = lesson.split('/')
  if (shelf === 'parts' && id !== undefined)
    return bookOf(knowledge, id).kinds[0]?.parts.find((it) => it.id === part)?.name ?? ''
  if (part !== undefined) return ''
  const book = kind === '' ? knowledge : bookOf(knowledge, kind)
  if (shelf === 'confusions') return book.confusions.find((it) => it.id === id)?.name ?? ''
  return shelf === 'hearsay' ? (book.hearsay.find((it) => it.id === id)?.name ?? '') : ''
}

/** Off an address or a form; what names no lesson is left out. */
export function carriedFrom(knowledge: Knowledge, sent: Readonly<Record<string, unknown>>): Carried | null {
  const text = (name: string) => (typeof sent[name] === 'string' ? sent[name] : '')
  const kind = knowledge.kinds.some(({ id }) => id === text('kind')) ? text('kind') : ''
  const carried = { lesson: text('lesson'), kind }
  return lessonName(knowledge, carried) === '' ? null : carried
}

/** `?lesson=…&kind=…`, or empty. */
export const carriedOn = (carried: Carried | null): string =>
  carried === null ? '' : `?${new URLSearchParams({ ...carried }).toString()}`
