import type { CareDone } from '../../../shared/care.js'
import type { Knowledge } from '../../../shared/knowledge.js'
import { dayIn } from '../../care/rhythm.js'
import { csvLines, csvOf } from '../layout/csv.js'
import type { Frame } from '../layout/frame.js'
import { plainFrame } from '../layout/frame.js'
import { removedPerson } from '../layout/written-words.js'
import { dayWords } from '../tools/tool-words.js'

/** What was done, lately first, a page at a time. */
export interface LogPage {
  readonly frame: Frame
  readonly title: string
  readonly lines: readonly LogLine[]
  /** the next page, further back; null on the last one */
  readonly next: string | null
}

export interface LogLine {
  readonly day: string
  readonly tool: string
  readonly task: string
  readonly who: string
  /** product and contact time; empty where nobody said */
  readonly details: string
  /** "written down 5 Mar 2026" where that was another day; null where it was the same */
  readonly written: string | null
}

export interface LogNames {
  readonly knowledge: Knowledge
  readonly tools: ReadonlyMap<string, string>
  readonly zone: string
}

export function logPage(
  entries: readonly CareDone[],
  names: LogNames,
  about: { readonly tool: string | null; readonly next: string | null },
): LogPage {
  const title = about.tool === null ? 'Care done' : `Care done: ${about.tool}`
  return {
    frame: plainFrame(title, 'tools'),
    title,
    lines: entries.map((it) => logLine(it, names)),
    next: about.next,
  }
}

export function logLine(done: CareDone, { knowledge, tools, zone }: LogNames): LogLine {
  const written = dayIn(zone, done.at)
  const { product, contactMinutes, caseId } = done.details
  const contact = contactMinutes === undefined ? undefined : `wet ${contactMinutes} min`
  return {
    day: dayWords(done.day),
    tool: tools.get(done.toolId) ?? done.toolId,
    task: knowledge.care.find(({ id }) => id === done.task)?.name ?? done.task,
    who: done.who ?? removedPerson,
    details: [product, contact, caseId && 'with a fix'].filter(Boolean).join(', '),
    written: written === done.day ? null : `written down ${dayWords(written)}`,
  }
}

/** The first line of the log as a table: days as ISO has them, with the moment at which each line was written. */
export const logCsvHead = csvOf([['day', 'written at', 'tool', 'care', 'who', 'product', 'contact minutes']])

export const logCsvLines = (entries: readonly CareDone[], { knowledge, tools }: LogNames): string =>
  csvLines(
    entries.map(({ day, at, toolId, task, who, details }) => [
      day,
      at,
      tools.get(toolId) ?? toolId,
      knowledge.care.find(({ id }) => id === task)?.name ?? task,
      who ?? removedPerson,
      details.product ?? '',
      details.contactMinutes?.toString() ?? '',
    ]),
  )
