import type { BenchCase, CaseState } from '../../../shared/case.js'
import type { Knowledge } from '../../../shared/knowledge.js'
import type { CaseSummary } from '../../cases/case-store.js'
import { caseStateOf } from '../../cases/fold.js'
import type { ConfirmedOutcome } from '../../cases/outcome.js'
import { complaintStep, ownWords } from '../../bench/case-state.js'
import { undoLast } from '../../bench/undo-last.js'
import { lookupOf } from '../../../shared/rulebook-index.js'
import { instantWords, stateWords } from './words.js'

/** What stands around every page. */
export interface Frame {
  readonly title: string
  readonly place: 'bench' | 'tools' | 'practice' | 'rulebook' | 'shop' | null
  readonly wide: boolean
  /** the tool whose case this is; null on a page of no case */
  readonly tag: Tag | null
  /** the ways between the pages of one case; empty elsewhere */
  readonly ways: readonly Way[]
  readonly back: Back | null
}

/** One screen back: an address, or a form that takes back what was said last. */
type Back =
  | { readonly href: string }
  | { readonly href: null; readonly action: string; readonly seen: number }

interface Way {
  readonly name: string
  readonly href: string
  readonly here: boolean
}

/** The paper tag tied to a tool. */
export interface Tag {
  readonly href: string | null
  readonly tool: string
  readonly kind: string
  readonly noticed: readonly string[]
  readonly state: string
  readonly stateId: CaseState
}

/** A case as one line of a list. */
export interface Hang {
  readonly href: string
  readonly tool: string
  readonly kind: string
  readonly words: string | null
  /** why it must not be used, in its name; null where nothing says so */
  readonly stop: string | null
  /** what it turned out to be; null where nobody confirmed it */
  readonly outcome: string | null
  readonly state: string
  readonly stateId: CaseState
  readonly when: string
}

const product = 'clipperwright'

/** The frame of a page that belongs to no case. */
export function plainFrame(title: string, place: Frame['place'] = 'bench'): Frame {
  return {
    title: `${title} – ${product}`,
    place,
    wide: place === 'rulebook' || place === 'tools',
    tag: null,
    ways: [],
    back: null,
  }
}

const ways = [
  { at: '', name: 'Next step' },
  { at: '/danger', name: 'Danger signs' },
  { at: '/complaint', name: 'What it does' },
  { at: '/answers', name: 'Answers so far' },
  { at: '/why', name: 'Suspects and why' },
  { at: '/worth', name: 'Fix, send in or buy new?' },
  { at: '/slip', name: 'Handover slip' },
  { at: '/return', name: 'It is back' },
  { at: '/retire', name: 'Retire list' },
  { at: '/tool', name: 'Name and kind' },
  { at: '/finish', name: 'End it here' },
] as const

/** Ways that are there in one state only. */
const stateOfWay: ReadonlyMap<string, CaseState> = new Map([
  ['/finish', 'on-the-bench'],
  ['/return', 'boxed-for-service'],
  ['/retire', 'set-aside'],
])

/**
 * The frame of a page of one case.
 *
 * @param about.at   the way that the page stands on, such as `/why`; '' for the screen of the work, null for none of them
 * @param about.back where one screen back is, if not at the screen of the work or at what was said last
 */
export function caseFrame(
  knowledge: Knowledge,
  bench: BenchCase,
  title: string,
  {
    at = null,
    error = false,
    wide = false,
    back,
  }: { at?: string | null; error?: boolean; wide?: boolean; back?: string } = {},
): Frame {
  const state = caseStateOf(bench)
  const home = `/cases/${bench.id}`
  return {
    title: `${error ? 'Error: ' : ''}${title} – ${bench.tool || kindName(knowledge, bench.kind)} – ${product}`,
    place: 'bench',
    wide,
    tag: tagOf(knowledge, bench, at === '' ? null : home),
    back: back !== undefined ? { href: back } : at === '' ? backFrom(bench) : { href: home },
    ways: ways
      .filter((way) => (stateOfWay.get(way.at) ?? state) === state)
      .map((way) => ({ name: way.name, href: `${home}${way.at}`, here: way.at === at })),
  }
}

function backFrom(bench: BenchCase): Back | null {
  const last = caseStateOf(bench) === 'on-the-bench' ? undoLast(bench) : null
  if (last === null) return { href: '/' }
  if (last === 'complaint') return { href: `/cases/${bench.id}/complaint` }
  return { href: null, action: `/cases/${bench.id}/back`, seen: bench.events.length }
}

/** What a tag has room for. */
const mostNoticed = 3

function tagOf(knowledge: Knowledge, bench: BenchCase, href: string | null): Tag {
  const { questions } = lookupOf(knowledge)
  const told = bench.events
    .flatMap((event) => (event.type === 'answered' && event.step === complaintStep ? [event.answers] : []))
    .flatMap((answers) => Object.keys(answers).filter((question) => answers[question] === 'yes'))
  const takenBack = new Set(
    bench.events.flatMap((event) => (event.type === 'took-back' ? event.questions : [])),
  )
  const noticed = [...new Set(told)]
    .filter((question) => !takenBack.has(question))
    .flatMap((question) => questions.get(question)?.question.statement ?? [])
  const stateId = caseStateOf(bench)
  return {
    href,
    tool: bench.tool || kindName(knowledge, bench.kind),
    kind: kindName(knowledge, bench.kind),
    noticed: (noticed.length > 0 ? noticed : ownWords(bench)).slice(0, mostNoticed),
    state: stateWords(stateId),
    stateId,
  }
}

/**
 * A case out of the store's list.
 *
 * @param stop the name of a stop that stands; null where none does, or nobody looked
 */
export function hangOf(knowledge: Knowledge, summary: CaseSummary, stop: string | null = null): Hang {
  return {
    href: `/cases/${summary.id}`,
    tool: summary.tool || kindName(knowledge, summary.kind),
    kind: kindName(knowledge, summary.kind),
    words: summary.words,
    stop,
    outcome: outcomeWords(knowledge, summary.outcome),
    state: stateWords(summary.state),
    stateId: summary.state,
    when: instantWords(summary.changedAt),
  }
}

/** "Worn carbon brushes, says the service". */
function outcomeWords(knowledge: Knowledge, outcome: ConfirmedOutcome | null): string | null {
  if (!outcome) return null
  const name = lookupOf(knowledge).causes.get(outcome.cause)?.name ?? outcome.cause
  return outcome.by === 'service' ? `${name}, says the service` : name
}

function kindName(knowledge: Knowledge, kind: string): string {
  return lookupOf(knowledge).kinds.get(kind)?.plainName ?? 'a kind no longer in the rulebook'
}
