/** What a tool's cases and moves tell of its life. Pure. */
import type { BenchCase, CaseState } from '../../shared/case.js'
import type { SomeFigures } from '../../shared/figures.js'
import type { Tool, ToolMove, ToolPlace } from '../../shared/tool.js'
import { caseStateOf } from '../cases/fold.js'
import type { ConfirmedOutcome } from '../cases/outcome.js'
import { minutesTold } from '../cases/minutes-told.js'
import { confirmedOutcome, returnOf } from '../cases/outcome.js'
import { dayIn, plusDays } from '../care/rhythm.js'
import { struckOut } from '../cases/struck-out.js'

/** One trouble of the tool, as it is remembered. */
export interface PastCase {
  readonly id: string
  readonly state: CaseState
  /** ISO 8601 instants, UTC */
  readonly begunAt: string
  readonly changedAt: string
  /** complaint in somebody's own words; else the questions that were ticked */
  readonly words: string | null
  readonly ticked: readonly string[]
  readonly outcome: ConfirmedOutcome | null
  /** numbers that were read and not taken back, in order, each in the unit of its question */
  readonly readings: readonly { readonly question: string; readonly value: number }[]
  /** fixes that were tried and not taken back, each with what it did, and the minutes that somebody told */
  readonly tried: readonly {
    readonly fix: string
    readonly outcome: 'cured' | 'better' | 'no'
    readonly minutes: number | null
  }[]
  /** what the service took, fee and carriage, in minor units; and when it was away, days of the shop's calendar */
  readonly service: { readonly paid: number; readonly left: string; readonly back: string } | null
}

export function pastCase(bench: BenchCase): PastCase {
  const { id, begunAt, changedAt, events } = bench
  const struck = struckOut(events)
  const complaint = events.flatMap((event, place) =>
    event.type === 'answered' && event.step === 'complaint' ? [{ event, place }] : [],
  )
  const back = returnOf(bench)
  const told = new Map(minutesTold(bench).map(({ fix, minutes }) => [fix, minutes]))
  return {
    id,
    state: caseStateOf(bench),
    begunAt,
    changedAt,
    words: complaint.find(({ event }) => event.words !== undefined)?.event.words ?? null,
    ticked: complaint.flatMap(({ event, place }) =>
      Object.keys(event.answers).filter(
        (question) => event.answers[question] === 'yes' && !struck.answer(place, question),
      ),
    ),
    outcome: confirmedOutcome(bench),
    readings: events.flatMap((event, place) =>
      event.type !== 'answered'
        ? []
        : Object.entries(event.answers).flatMap(([question, value]) =>
            typeof value === 'number' && !struck.answer(place, question) ? [{ question, value }] : [],
          ),
    ),
    tried: events.flatMap((event, place) =>
      event.type === 'tried' && !struck.fix(place)
        ? [{ fix: event.fix, outcome: event.outcome, minutes: told.get(event.fix) ?? null }]
        : [],
    ),
    service: back && { paid: back.fee + back.carriage, left: back.left, back: back.back },
  }
}

/** Where a tool is, its open cases included: the bench and the box go before what the shop said. */
export function whereNow(
  tool: Pick<Tool, 'place'>,
  cases: readonly Pick<PastCase, 'state'>[],
): CaseState | ToolPlace {
  if (tool.place === 'retired') return 'retired'
  const states = new Set(cases.map(({ state }) => state))
  for (const state of ['on-the-bench', 'boxed-for-service', 'set-aside'] as const)
    if (states.has(state)) return state
  return tool.place
}

const dayMs = 86_400_000

/**
 * The days on which it was out of the shop: away or lent by the shop's own word, or at a service, each counted once.
 *
 * @param zone  of the shop's clock
 * @param today day of its calendar, up to which one looks
 */
export function daysOut(
  moves: readonly ToolMove[],
  cases: readonly Pick<PastCase, 'service'>[],
  zone: string,
  today: string,
): ReadonlySet<string> {
  const spans = [
    ...moves.flatMap(({ place, at }, k) =>
      place === 'away' || place === 'lent'
        ? [{ left: dayIn(zone, at), back: moves[k + 1] ? dayIn(zone, moves[k + 1]!.at) : today }]
        : [],
    ),
    ...cases.flatMap(({ service }) => service ?? []),
  ]
  const days = new Set<string>()
  for (const { left, back } of spans) for (let day = left; day < back; day = plusDays(day, 1)) days.add(day)
  return days
}

/** @param today day of the shop's calendar, such as 2026-03-02 */
export const inWarranty = ({ details }: Pick<Tool, 'details'>, today: string): boolean | null =>
  details.warrantyUntil === undefined ? null : details.warrantyUntil >= today

/** What the record tells of money and age, in place of the shop's figures. */
export function figuresOfTool({ details }: Pick<Tool, 'details'>, today: string): SomeFigures {
  const warranty = inWarranty({ details }, today)
  const { bought, price } = details
  const years = bought === undefined ? null : (Date.parse(today) - Date.parse(bought)) / (365.25 * dayMs)
  return {
    ...(warranty !== null && { inWarranty: warranty }),
    ...(years !== null && years >= 0 && { age: Math.min(60, Math.round(years * 10) / 10) }),
    ...(price !== undefined && { newPrice: price }),
  }
}
