/** What a tool's cases and moves tell of its life. Pure. */
import type { BenchCase, CaseState } from '../../shared/case.js'
import type { SomeFigures } from '../../shared/figures.js'
import type { Tool, ToolMove, ToolPlace } from '../../shared/tool.js'
import { caseStateOf } from '../cases/fold.js'
import type { ConfirmedOutcome } from '../cases/outcome.js'
import { confirmedOutcome, daysAway, returnOf } from '../cases/outcome.js'
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
  /** fixes that were tried and not taken back, each with what it did */
  readonly tried: readonly { readonly fix: string; readonly outcome: 'cured' | 'better' | 'no' }[]
  /** what the service took, fee and carriage, in minor units; and days away */
  readonly service: { readonly paid: number; readonly days: number } | null
}

export function pastCase(bench: BenchCase): PastCase {
  const { id, begunAt, changedAt, events } = bench
  const struck = struckOut(events)
  const complaint = events.flatMap((event, place) =>
    event.type === 'answered' && event.step === 'complaint' ? [{ event, place }] : [],
  )
  const back = returnOf(bench)
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
      event.type === 'tried' && !struck.fix(place) ? [{ fix: event.fix, outcome: event.outcome }] : [],
    ),
    service: back && { paid: back.fee + back.carriage, days: daysAway(back) },
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

/** Days away by the shop's own word, up to `now`; fractions of a day are rounded. */
export function daysOut(moves: readonly ToolMove[], now: Date): number {
  const out = moves.reduce((sum, { place, at }, k) => {
    if (place !== 'away' && place !== 'lent') return sum
    return sum + Date.parse(moves[k + 1]?.at ?? now.toISOString()) - Date.parse(at)
  }, 0)
  return Math.round(out / dayMs)
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
