import type { Knowledge } from '../../../shared/knowledge.js'
import { standingWords } from './words.js'

/** Where something comes from and how far that can be trusted. */
export interface SourceView {
  readonly title: string
  readonly standing: string
  readonly href: string
}

/** A source as a mark beside what it backs; the whole entry stands on the sources page. */
export function sourceView(knowledge: Knowledge, id: string | undefined): SourceView {
  const entry = id === undefined ? undefined : knowledge.sources[id]
  return {
    title: entry?.title ?? 'no source named',
    standing: entry ? standingWords(entry.standing) : '',
    href: `/rulebook/sources#${id ?? ''}`,
  }
}
