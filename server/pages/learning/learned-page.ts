import type { Currency } from '../../../shared/figures.js'
import type { Knowledge } from '../../../shared/knowledge.js'
import { lookupOf } from '../../../shared/rulebook-index.js'
import type { Tool } from '../../../shared/tool.js'
import type { LeftUndone } from '../../care/left.js'
import type { YearsCost } from '../../decision/tool-worth.js'
import type { FigureGroup, LearnedFigure } from '../../learning/learned-figures.js'
import type { Frame } from '../layout/frame.js'
import { plainFrame } from '../layout/frame.js'
import { countOf100 } from '../layout/words.js'
import { tooDearWords } from '../tools/tool-record-page.js'

/** What the shop has learned beside what the rulebook says. */
export interface LearnedPage {
  readonly frame: Frame
  readonly on: boolean
  readonly kinds: readonly {
    readonly name: string
    readonly cases: number
    /** what was confirmed most */
    readonly first: FigureRow | null
    readonly groups: readonly { readonly title: string; readonly rows: readonly FigureRow[] }[]
  }[]
  /** fixes that never cured, care that nobody does, tools that cost more than a new one, cases that cannot be read */
  readonly notes: readonly Note[]
  readonly moreNotes: readonly Note[]
}

interface Note {
  readonly words: string
  readonly href: string | null
}

interface FigureRow {
  readonly name: string
  readonly rulebook: string
  readonly shop: string
  readonly cases: string
}

/** A tool's last year in money. */
export interface ToolsYear {
  readonly tool: Tool
  readonly cost: YearsCost
}

/** All that the page is made from. */
interface Learned {
  readonly learned: readonly {
    readonly kind: string
    readonly cases: number
    readonly figures: readonly LearnedFigure[]
  }[]
  readonly on: boolean
  readonly years: readonly ToolsYear[]
  readonly left: readonly LeftUndone[]
  /** ids of cases that cannot be read back */
  readonly unread: readonly string[]
}

const mostNotes = 2
const mostRows = 40
/** From so many tries without a cure on, a fix is named. */
const triesWithout = 3

const groups: readonly (readonly [FigureGroup, string])[] = [
  ['shares', 'How often it is the fault'],
  ['cures', 'How often a fix cures'],
  ['minutes', 'Minutes of a fix'],
  ['signs', 'How often a fault shows'],
  ['telling', 'What people can tell'],
]

export function learnedPage(knowledge: Knowledge, currency: Currency, told: Learned): LearnedPage {
  const { kinds } = lookupOf(knowledge)
  const notes = notesOf(knowledge, currency, told)
  return {
    frame: plainFrame('What the shop has learned', 'tools'),
    on: told.on,
    kinds: told.learned.map(({ kind, cases, figures }) => {
      const [first] = figures.filter(({ group }) => group === 'shares')
      return {
        name: kinds.get(kind)?.plainName ?? kind,
        cases,
        first: first ? rowOf(knowledge, first) : null,
        groups: groups.flatMap(([group, title]) => {
          const rows = figures.filter((it) => it.group === group).slice(0, mostRows)
          return rows.length > 0 ? [{ title, rows: rows.map((it) => rowOf(knowledge, it)) }] : []
        }),
      }
    }),
    notes: notes.slice(0, mostNotes),
    moreNotes: notes.slice(mostNotes),
  }
}

function notesOf(
  knowledge: Knowledge,
  currency: Currency,
  { learned, years, left, unread }: Learned,
): Note[] {
  const { causes, fixes } = lookupOf(knowledge)
  return [
    ...years.flatMap(({ tool, cost }) => {
      const words = tooDearWords(cost, currency)
      return words === null ? [] : [{ words: `${tool.name}: ${words}`, href: `/tools/${tool.id}` }]
    }),
    ...learned
      .flatMap(({ figures }) => figures)
      .filter(({ group, hits, of }) => group === 'cures' && hits === 0 && of >= triesWithout)
      .map(({ about: [fix, cause], of }) => ({
        words: `${fixes.get(fix!)?.name ?? fix}: ${of} tries, no cure of “${causes.get(cause!)?.name ?? cause}”.`,
        href: `/rulebook/fixes/${fix}`,
      })),
    ...(left.length > 0 ? [{ words: `Care that nobody does: ${left.length}.`, href: '/care/left' }] : []),
    ...unread.map((id) => ({
      words: `A case cannot be read, and does not count: ${id}.`,
      href: `/cases/${id}`,
    })),
  ]
}

function rowOf(knowledge: Knowledge, figure: LearnedFigure): FigureRow {
  const { group, rulebook, shop, interval, of, hits } = figure
  const show =
    group === 'minutes'
      ? (value: number) => String(Math.round(value))
      : (value: number) => String(countOf100(value))
  const unit = group === 'minutes' ? '' : ' in 100'
  return {
    name: nameOf(knowledge, figure),
    rulebook: `${show(rulebook)}${unit}`,
    shop: `${show(shop)}${unit} (${show(interval[0])} to ${show(interval[1])})`,
    cases: hits === null ? String(of) : `${Math.round(hits)} of ${of}`,
  }
}

function nameOf(knowledge: Knowledge, { group, about }: LearnedFigure): string {
  const { causes, fixes, findings } = lookupOf(knowledge)
  const [first, cause] = about as [string, string | undefined]
  const causeName = cause === undefined ? '' : (causes.get(cause)?.name ?? cause)
  switch (group) {
    case 'shares':
      return causes.get(first)?.name ?? first
    case 'cures':
      return `${fixes.get(first)?.name ?? first}: ${causeName}`
    case 'minutes':
      return fixes.get(first)?.name ?? first
    case 'signs':
      return `${causeName}: ${findings.get(first)?.says ?? first}`
    case 'telling':
      return wayNames[first] ?? first
  }
}

const wayNames: Readonly<Record<string, string>> = {
  memory: 'From memory',
  look: 'By a look',
  feel: 'By hand or nose',
  ear: 'By ear',
  phone: 'By the phone’s ear',
  run: 'On the running tool',
  meter: 'By a meter',
  spare: 'With a second tool or blade',
  'open-body': 'With the body open',
}
