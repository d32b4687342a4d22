import type { BenchCase, CaseState } from '../../../shared/case.js'
import type { Knowledge } from '../../../shared/knowledge.js'
import type { CaseSummary } from '../../cases/case-store.js'
import { caseStateOf } from '../../cases/fold.js'
import type { ConfirmedOutcome } from '../../cases/outcome.js'
import { complaintStep, ownWords } from '../../bench/case-state.js'
import { lookupOf } from '../../../shared/rulebook-index.js'
import { instantWords, stateWords } from './words.js'

/** What stands around every page. */
export interface Frame {
  readonly title: string
  readonly place: 'bench' | 'practice' | 'rulebook' | 'shop' | null
  readonly wide: boolean
  readonly tag: Tag | null
  /** the ways between the pages of one case; empty elsewhere */
  readonly ways: readonly Way[]
  /** the last thing said or done, from the screen of the work; null elsewhere */
  readonly back: string | null
}

export interface Way {
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
  /** what it turned out to be; null where nobody confirmed it */
  readonly outcome: string | null
  readonly state: string
  readonly stateId: CaseState
  readonly when: string
}

const product = 'clipperwright'
const unnamed = 'Tool without a name'

/** The frame of a page that belongs to no case. */
export function plainFrame(title: string, place: Frame['place'] = 'bench'): Frame {
  return {
    title: `${title} – ${product}`,
    place,
    wide: place === 'rulebook',
    tag: null,
    ways: [],
    back: null,
  }
}

const ways = [
  { at: '', name: 'Where it stands' },
  { at: '/complaint', name: 'What it does' },
  { at: '/answers', name: 'Said and done' },
  { at: '/why', name: 'Why' },
  { at: '/worth', name: 'Worth it?' },
  { at: '/slip', name: 'Slip' },
  { at: '/return', name: 'It is back' },
  { at: '/retire', name: 'Retire list' },
  { at: '/finish', name: 'End it here' },
] as const

/** Ways that are there in one state only. */
const stateOfWay: ReadonlyMap<string, CaseState> = new Map([
  ['/finish', 'on-the-bench'],
  ['/return', 'boxed-for-service'],
  ['/retire', 'set-aside'],
])

/** The frame of a page of one case. `at` is the way that the page stands on, such as `/why`. */
export function caseFrame(
  knowledge: Knowledge,
  bench: BenchCase,
  title: string,
  { at = null, error = false, wide = false }: { at?: string | null; error?: boolean; wide?: boolean } = {},
): Frame {
  const state = caseStateOf(bench)
  return {
    title: `${error ? 'Error: ' : ''}${title} – ${bench.tool || unnamed} – ${product}`,
    place: 'bench',
    wide,
    tag: tagOf(knowledge, bench, at === '' ? null : `/cases/${bench.id}`),
    back: at === '' && bench.events.length > 0 ? `/cases/${bench.id}/answers#last` : null,
    ways: ways
      .filter((way) => (stateOfWay.get(way.at) ?? state) === state)
      .map((way) => ({ name: way.name, href: `/cases/${bench.id}${way.at}`, here: way.at === at })),
  }
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
    tool: bench.tool || unnamed,
    kind: kindName(knowledge, bench.kind),
    noticed: (noticed.length > 0 ? noticed : ownWords(bench)).slice(0, mostNoticed),
    state: stateWords(stateId),
    stateId,
  }
}

/** A case out of the store's list. */
export function hangOf(knowledge: Knowledge, summary: CaseSummary): Hang {
  return {
    href: `/cases/${summary.id}`,
    tool: summary.tool || unnamed,
    kind: kindName(knowledge, summary.kind),
    words: summary.words,
    outcome: outcomeWords(knowledge, summary.outcome),
    state: stateWords(summary.state),
    stateId: summary.state,
    when: instantWords(summary.changedAt),
  }
}

/** "Worn carbon brushes, says the service". */
export function outcomeWords(knowledge: Knowledge, outcome: ConfirmedOutcome | null): string | null {
  if (!outcome) return null
  const name = lookupOf(knowledge).causes.get(outcome.cause)?.name ?? outcome.cause
  return outcome.by === 'service' ? `${name}, says the service` : name
}

function kindName(knowledge: Knowledge, kind: string): string {
  return lookupOf(knowledge).kinds.get(kind)?.plainName ?? 'a kind no longer in the rulebook'
}
