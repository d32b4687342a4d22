import type { Currency } from '../../../shared/figures.js'
import type { Knowledge, Question } from '../../../shared/knowledge.js'
import { lookupOf } from '../../../shared/rulebook-index.js'
import type { Tool, ToolMove } from '../../../shared/tool.js'
import { ToolPlace } from '../../../shared/tool.js'
import type { DueCare } from '../../care/due.js'
import type { WearOdds } from '../../care/wear-odds.js'
import { cardsOf, type RoundCard } from '../care/round-page.js'
import { monthBars, type MonthBar } from './month-bars.js'
import { strokeCurve, type StrokeCurve } from './stroke-curve.js'
import type { PastCase } from '../../tools/tool-life.js'
import { daysOut, inWarranty, whereNow } from '../../tools/tool-life.js'
import { placeWords } from '../../forms/tool-form.js'
import type { Frame } from '../layout/frame.js'
import { plainFrame } from '../layout/frame.js'
import { moneyIn } from '../layout/money.js'
import { days, instantWords, stateWords } from '../layout/words.js'
import { dayWords } from './tool-words.js'
import { wearWords } from './wear-words.js'
import { whereWords } from './tools-page.js'

/** One tool of the shop: what it is, and its life at a glance. */
export interface ToolRecordPage {
  readonly frame: Frame
  readonly home: string
  readonly name: string
  readonly kind: string
  readonly where: string
  readonly places: readonly { readonly id: ToolPlace; readonly words: string }[]
  /** the case that is open on it; null where a new one may be opened */
  readonly open: { readonly href: string; readonly words: string } | null
  readonly retired: boolean
  readonly facts: readonly { readonly term: string; readonly words: string }[]
  readonly life: readonly { readonly term: string; readonly words: string }[]
  readonly care: readonly RoundCard[]
  readonly batch: string
  readonly hasPhoto: boolean
  readonly done: { readonly batch: string; readonly words: string } | null
  readonly wear: readonly string[]
  readonly bars: readonly MonthBar[]
  /** its strokes over the months; null until two were counted */
  readonly strokes: StrokeCurve | null
  readonly cases: readonly PastCaseView[]
  readonly moreCases: readonly PastCaseView[]
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
  readonly moves: readonly ToolMove[]
  readonly care: readonly DueCare[]
  readonly wear: readonly WearOdds[]
  /** by month: care that was done */
  readonly months: ReadonlyMap<string, number>
}

const mostCases = 3

export function toolRecordPage(
  knowledge: Knowledge,
  { tool, cases, moves, care, wear, months }: ToolRecord,
  currency: Currency,
  now: Date,
  given: { readonly batch: string; readonly hasPhoto: boolean; readonly done: ToolRecordPage['done'] },
): ToolRecordPage {
  const home = `/tools/${tool.id}`
  const today = now.toISOString().slice(0, 10)
  const open = cases.find(({ state }) => state !== 'running-again')
  const away = daysOut(moves, now) + cases.reduce((sum, { service }) => sum + (service?.days ?? 0), 0)
  const paid = cases.reduce((sum, { service }) => sum + (service?.paid ?? 0), 0)
  const views = cases.map((past) => pastCaseView(knowledge, past))
  return {
    frame: plainFrame(tool.name, 'tools'),
    home,
    name: tool.name,
    kind: lookupOf(knowledge).kinds.get(tool.kind)?.plainName ?? tool.kind,
    where: whereWords(whereNow(tool, cases)),
    places: ToolPlace.options.filter((id) => id !== tool.place).map((id) => ({ id, words: placeWords[id] })),
    open: open ? { href: `/cases/${open.id}`, words: stateWords(open.state) } : null,
    retired: tool.place === 'retired',
    facts: factsOf(tool, currency, today),
    life: [
      { term: 'Cases', words: String(cases.length) },
      { term: 'Away', words: days(away) },
      ...(paid > 0 ? [{ term: 'Services', words: moneyIn(paid / 10 ** currency.digits, currency) }] : []),
    ],
    care: cardsOf(
      care.filter(({ state }) => state !== 'later'),
      today,
    ),
    ...given,
    wear: wearWords(knowledge, wear),
    bars: monthBars(today, months, cases),
    strokes: strokeCurve(knowledge, cases),
    cases: views.slice(0, mostCases),
    moreCases: views.slice(mostCases),
  }
}

function factsOf({ details }: Tool, currency: Currency, today: string) {
  const { volts, hertz, watts, warrantyUntil } = details
  const plate = [volts && `${volts} V`, hertz && `${hertz} Hz`, watts && `${watts} W`]
    .filter(Boolean)
    .join(', ')
  const covered = inWarranty({ details }, today)
  const warranty = warrantyUntil && `${covered ? 'until' : 'ended'} ${dayWords(warrantyUntil)}`
  const price =
    details.price === undefined ? undefined : moneyIn(details.price / 10 ** currency.digits, currency)
  return [
    ['Plate', plate],
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
