import type { CareDone } from '../../../shared/care.js'
import type { Tool } from '../../../shared/tool.js'
import { plusDays } from '../../care/rhythm.js'
import type { Problem } from '../../forms/answer-form.js'
import type { Frame } from '../layout/frame.js'
import { plainFrame } from '../layout/frame.js'
import type { JustDone } from './just-done.js'
import { dayWords } from '../tools/tool-words.js'
import type { LogLine, LogNames } from './log-page.js'
import { logLine } from './log-page.js'

/** The disinfection log, as inspectors ask for it. */
export interface DisinfectionPage {
  readonly frame: Frame
  readonly batch: string
  readonly tools: readonly { readonly id: string; readonly name: string; readonly ticked: boolean }[]
  /** is the one tick for all of them set? */
  readonly all: boolean
  readonly who: string
  readonly product: string
  readonly contact: string
  readonly day: string
  readonly today: string
  /** the days looked back at, latest first, with what was logged on them; days without an entry are in `missing` */
  readonly days: readonly { readonly day: string; readonly lines: readonly LogLine[] }[]
  /** "Sun 22 Nov" */
  readonly missing: readonly string[]
  readonly looked: number
  readonly done: JustDone | null
  readonly problems: readonly Problem[]
}

/** Days that the page looks back at. */
export const daysBack = 14

const weekday = new Intl.DateTimeFormat('en-GB', {
  weekday: 'short',
  day: 'numeric',
  month: 'short',
  timeZone: 'UTC',
})

/** @param tools those that are in the shop */
export function disinfectionPage(
  entries: readonly CareDone[],
  names: LogNames,
  tools: readonly Tool[],
  today: string,
  given: {
    readonly batch: string
    readonly who: string
    readonly product: string
    readonly contact: string
    readonly day: string
    /** ids of the tools that were ticked */
    readonly ticked: readonly string[]
    readonly all: boolean
  },
  problems: readonly Problem[] = [],
  done: JustDone | null = null,
): DisinfectionPage {
  const days = Array.from({ length: daysBack }, (_, k) => plusDays(today, -k)).map((day) => ({
    date: day,
    lines: entries.filter((it) => it.day === day).map((it) => logLine(it, names)),
  }))
  return {
    frame: plainFrame(`${problems.length > 0 ? 'Error: ' : ''}Disinfection log`, 'tools'),
    ...given,
    today,
    tools: tools.map(({ id, name }) => ({ id, name, ticked: given.ticked.includes(id) })),
    days: days
      .filter(({ lines }) => lines.length > 0)
      .map(({ date, lines }) => ({ day: dayWords(date), lines })),
    missing: days
      .filter(({ lines }) => lines.length === 0)
      .map(({ date }) => weekday.format(Date.parse(date))),
    looked: daysBack,
    done,
    problems,
  }
}
