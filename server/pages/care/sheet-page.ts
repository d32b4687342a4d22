import type { CareDone } from '../../../shared/care.js'
import { plusDays } from '../../care/rhythm.js'
import type { Frame } from '../layout/frame.js'
import { plainFrame } from '../layout/frame.js'
import { dayWords } from '../tools/tool-words.js'
import type { LogLine, LogNames } from './log-page.js'
import { logLine } from './log-page.js'

/** The disinfection log of some days as a table on paper. */
export interface SheetPage {
  readonly frame: Frame
  readonly from: string
  readonly to: string
  readonly words: string
  /** earliest first; a day without an entry is a row without lines */
  readonly days: readonly { readonly day: string; readonly lines: readonly LogLine[] }[]
  readonly missing: number
  /** are there more entries than one sheet takes? */
  readonly cut: boolean
}

export function sheetPage(
  entries: readonly CareDone[],
  names: LogNames,
  { from, to, all }: { readonly from: string; readonly to: string; readonly all: boolean },
): SheetPage {
  const byDay = new Map<string, LogLine[]>()
  for (let day = from; day <= to; day = plusDays(day, 1)) byDay.set(day, [])
  for (const entry of entries) byDay.get(entry.day)?.unshift(logLine(entry, names))
  const days = [...byDay].map(([day, lines]) => ({ day: dayWords(day), lines }))
  return {
    frame: plainFrame('Disinfection log', 'tools'),
    from,
    to,
    words: `${dayWords(from)} to ${dayWords(to)}`,
    days,
    missing: days.filter(({ lines }) => lines.length === 0).length,
    cut: !all,
  }
}
