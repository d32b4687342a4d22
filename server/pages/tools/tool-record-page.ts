import type { Currency } from '../../../shared/figures.js'
import type { Knowledge, Question } from '../../../shared/knowledge.js'
import { lookupOf } from '../../../shared/rulebook-index.js'
import type { Tool } from '../../../shared/tool.js'
import { ToolPlace } from '../../../shared/tool.js'
import type { DueCare } from '../../care/due.js'
import type { WearOdds } from '../../care/wear-odds.js'
import { cardsOf, type RoundCard } from '../care/round-page.js'
import type { CareYear } from '../../tools/care-year.js'
import type { Spent } from '../../tools/spent.js'
import type { YearsCost } from '../../decision/tool-worth.js'
import { monthBars, type MonthBar } from './month-bars.js'
import { strokeCurve, type StrokeCurve } from './stroke-curve.js'
import type { PastCase } from '../../tools/tool-life.js'
import { inWarranty, whereNow } from '../../tools/tool-life.js'
import { placeWords } from '../../forms/tool-form.js'
import type { Frame } from '../layout/frame.js'
import { plainFrame } from '../layout/frame.js'
import { moneyIn } from '../layout/money.js'
import { counted, instantWords, stateWords, timesWords } from '../layout/words.js'
import { writtenLines } from '../layout/written-words.js'
import type { Written } from '../../../shared/person.js'
import { dayWords, plateWords } from './tool-words.js'
import { wearWords } from './wear-words.js'
import { whereWords } from './tools-page.js'

/** One tool of the shop: what it is, and its life at a glance. */
export interface ToolRecordPage {
  readonly frame: Frame
  readonly home: string
  readonly name: string
  readonly kind: string
  /** null where its open case says it */
  readonly where: string | null
  /** is it out of the shop, so that no care falls due? */
  readonly out: boolean
  readonly places: readonly { readonly id: ToolPlace; readonly words: string }[]
  /** the case that is open on it; null where a new one may be opened */
  readonly open: { readonly href: string; readonly words: string } | null
  readonly retired: boolean
  readonly facts: readonly { readonly term: string; readonly words: string }[]
  /** what its year came to, in a few words each */
  readonly glance: readonly string[]
  /** it cost more in a year than a new one comes to; null where it did not */
  readonly tooDear: string | null
  /** cases that cannot be read back, each by its address */
  readonly unread: readonly string[]
  readonly care: readonly RoundCard[]
  readonly batch: string
  readonly hasPhoto: boolean
  /** was it put on the list a moment ago, under a name that nobody chose? */
  readonly isNew: boolean
  readonly done: { readonly batch: string; readonly words: string } | null
  readonly wear: readonly string[]
  readonly bars: readonly MonthBar[]
  /** its strokes over the months; null until two were counted */
  readonly strokes: StrokeCurve | null
  readonly cases: readonly PastCaseView[]
  readonly moreCases: readonly PastCaseView[]
  /** who changed it, lately first */
  readonly written: readonly string[]
}

export interface PastCaseView {
  readonly href: string
  readonly when: string
  readonly state: string
  readonly words: string
  readonly outcome: string | null
}

export interface ToolRecord {
  readonly tool: Tool
  readonly cases: readonly PastCase[]
  readonly care: readonly DueCare[]
  readonly wear: readonly WearOdds[]
  readonly year: CareYear
  /** days on which it was out of the shop */
  readonly away: ReadonlySet<string>
  /** ids of cases that cannot be read back */
  readonly unread: readonly string[]
  readonly spent: Spent
  readonly cost: YearsCost
  readonly written: readonly Written[]
}

const mostCases = 1

export function toolRecordPage(
  knowledge: Knowledge,
  { tool, cases, care, wear, year, away, unread, spent, cost, written }: ToolRecord,
  currency: Currency,
  today: string,
  given: Pick<ToolRecordPage, 'batch' | 'hasPhoto' | 'isNew' | 'done'>,
): ToolRecordPage {
  const home = `/tools/${tool.id}`
  const open = cases.find(({ state }) => state !== 'running-again')
  const now = whereNow(tool, cases)
  const out = [now, tool.place].some((it) => ['away', 'lent', 'boxed-for-service'].includes(it))
  const views = cases.map((past) => pastCaseView(knowledge, past))
  return {
    frame: plainFrame(tool.name, 'tools'),
    home,
    name: tool.name,
    kind: lookupOf(knowledge).kinds.get(tool.kind)?.plainName ?? tool.kind,
    where: open === undefined ? whereWords(now) : tool.place === 'in-use' ? null : placeWords[tool.place],
    out,
    places: ToolPlace.options.filter((id) => id !== tool.place).map((id) => ({ id, words: placeWords[id] })),
    open: open ? { href: `/cases/${open.id}`, words: stateWords(open.state) } : null,
    retired: tool.place === 'retired',
    facts: factsOf(tool, currency, today),
    glance: glanceOf({ cases, year, away, spent }, currency, today),
    tooDear: tooDearWords(cost, currency),
    unread: unread.map((id) => `/cases/${id}`),
    care: cardsOf(
      care.filter(({ state }) => !out && state !== 'later'),
      today,
    ),
    ...given,
    wear: wearWords(knowledge, wear),
    bars: monthBars(today, year, cases, away),
    strokes: strokeCurve(knowledge, cases),
    cases: views.slice(0, mostCases),
    moreCases: views.slice(mostCases),
    written: writtenLines(written, {
      place: (id) => placeWords[ToolPlace.parse(id)].toLowerCase(),
    }),
  }
}

/** "2 cases", "3 rounds missed", "4 days away", "2 parts", "€84 paid": what is nought is left out, but for cases. */
function glanceOf(
  { cases, year, away, spent }: Pick<ToolRecord, 'cases' | 'year' | 'away' | 'spent'>,
  currency: Currency,
  today: string,
): string[] {
  const aYearAgo = `${Number(today.slice(0, 4)) - 1}${today.slice(4)}`
  const begun = cases.filter(({ begunAt }) => begunAt >= aYearAgo).length
  const missed = [...year.values()].reduce((sum, month) => sum + month.missed, 0)
  const out = [...away].filter((day) => day >= aYearAgo).length
  const paid = spent.services + spent.parts
  return [
    counted(begun, 'case'),
    ...(missed > 0 ? [`care missed ${timesWords(missed)}`] : []),
    ...(out > 0 ? [counted(out, 'day away', 'days away')] : []),
    ...(spent.taken.length > 0 ? [counted(spent.taken.length, 'part')] : []),
    ...(paid > 0 ? [`${moneyIn(paid / 10 ** currency.digits, currency)} paid`] : []),
  ]
}

/** Its year against a new one's, where it cost more. */
export function tooDearWords({ kept, renewed }: YearsCost, currency: Currency): string | null {
  if (kept <= renewed) return null
  const money = (minor: number) => moneyIn(Math.round(minor / 10 ** currency.digits), currency)
  return `It cost ${money(kept)} in a year, work included. A new one comes to ${money(renewed)} a year.`
}

function factsOf({ details }: Tool, currency: Currency, today: string) {
  const { warrantyUntil } = details
  const covered = inWarranty({ details }, today)
  const warranty = warrantyUntil && `${covered ? 'until' : 'ended'} ${dayWords(warrantyUntil)}`
  const price =
    details.price === undefined ? undefined : moneyIn(details.price / 10 ** currency.digits, currency)
  return [
    ['Plate', plateWords({ details })],
    ['Strokes a minute, sound', details.strokes?.toString()],
    ['Serial', details.serial],
    ['Bought', details.bought && dayWords(details.bought)],
    ['Price', price],
    ['Warranty', warranty],
    ['Used by', details.usedBy],
    ['Clients a day', details.clientsADay?.toString()],
    ['Blades', details.blades],
  ].flatMap(([term, words]) => (words ? [{ term: term!, words }] : []))
}

export function pastCaseView(knowledge: Knowledge, past: PastCase): PastCaseView {
  const { causes } = lookupOf(knowledge)
  const cause = past.outcome && (causes.get(past.outcome.cause)?.name ?? past.outcome.cause)
  return {
    href: `/cases/${past.id}`,
    when: instantWords(past.changedAt).split(',')[0]!,
    state: stateWords(past.state),
    words: complaintWords(knowledge, past),
    outcome: cause || fixWords(knowledge, past),
  }
}

/** What was complained of, in the words that were used. */
export function complaintWords(knowledge: Knowledge, { words, ticked }: PastCase): string {
  if (words !== null) return `“${words}”`
  const { questions } = lookupOf(knowledge)
  const said = ticked.flatMap(
    (id) => (questions.get(id)?.question satisfies Question | undefined)?.statement ?? [],
  )
  return said.length > 0 ? said.slice(0, 2).join('; ') : 'No complaint told'
}

/** The fix that cured it; null where none did. */
function fixWords(knowledge: Knowledge, { tried }: PastCase): string | null {
  const cured = tried.findLast(({ outcome }) => outcome === 'cured')
  return cured ? (lookupOf(knowledge).fixes.get(cured.fix)?.name ?? cured.fix) : null
}
