/** What a shop has come to beside what the rulebook says, figure by figure. Pure. */
import type { ShopCounts, Tally } from '../../shared/situation.js'
import type { PreparedKind } from '../diagnosis/prepare.js'
import {
  afterMinutes,
  afterTally,
  afterTelling,
  learnedShares,
  rulebookWorth,
  seenWhileThere,
} from '../diagnosis/relearned.js'
import { interval, minutesInterval } from './count-case.js'

/** How often a fault is the main one; how often a sign shows with it; cures; minutes; what people can tell. */
export type FigureGroup = 'shares' | 'cures' | 'minutes' | 'signs' | 'telling'

export interface LearnedFigure {
  readonly group: FigureGroup
  /** ids: of a cause, of a fix or finding with its cause, of a fix, of a way of telling */
  readonly about: readonly string[]
  readonly rulebook: number
  readonly shop: number
  /** about 95 in 100 of what may be */
  readonly interval: readonly [number, number]
  /** cases, tries, times or screens that it rests on, and of those the ones that showed, cured or told */
  readonly of: number
  readonly hits: number | null
}

/** Only what something was confirmed of; within a group what rests on most comes first. */
export function learnedFigures(
  { model, person }: PreparedKind,
  counts: ShopCounts,
): readonly LearnedFigure[] {
  const beta = (
    group: FigureGroup,
    about: readonly string[],
    rulebook: number,
    shop: number,
    weight: number,
    { hits, of }: Tally,
  ): LearnedFigure => ({ group, about, rulebook, shop, interval: interval(shop, weight + of), of, hits })
  const shares = learnedShares(model, counts)
  const perCause = (by: Readonly<Record<string, Readonly<Record<string, Tally>>>>) =>
    Object.entries(by).flatMap(([id, tallies]) =>
      Object.entries(tallies).map(([cause, tally]) => ({
        id,
        cause,
        c: model.causeIndex.get(cause) ?? -1,
        tally,
      })),
    )
  const ways = new Map([...person.telling.values()].map(({ way, chance }) => [way, chance]))
  const all: LearnedFigure[] = [
    ...model.causes.flatMap(({ id, shares: own }, i) => {
      const hits = counts.causes[id] ?? 0
      const tally = { hits, of: counts.cases }
      if (hits === 0) return []
      return [beta('shares', [id], (own[model.kind.id] ?? 0) / 1000, shares[i]!, rulebookWorth.shares, tally)]
    }),
    ...perCause(counts.fixes).flatMap(({ id, cause, c, tally }) => {
      const rulebook = model.curesOf.get(id)?.[c] ?? 0
      if (rulebook === 0) return []
      const shop = afterTally(rulebook, rulebookWorth.cure, tally)
      return [beta('cures', [id, cause], rulebook, shop, rulebookWorth.cure, tally)]
    }),
    ...Object.entries(counts.minutes).flatMap(([id, told]): LearnedFigure[] => {
      const rulebook = model.fixes.find((fix) => fix.id === id)?.minutes
      if (rulebook === undefined) return []
      const shop = afterMinutes(rulebook, told)
      const spread = minutesInterval(shop, rulebookWorth.minutes + told.of)
      return [{ group: 'minutes', about: [id], rulebook, shop, interval: spread, of: told.of, hits: null }]
    }),
    ...perCause(counts.findings).flatMap(({ id, cause, c, tally }) => {
      const f = model.findingIndex.get(id) ?? -1
      const rulebook = seenWhileThere(model, f, c)
      if (rulebook === null) return []
      const shop = afterTally(rulebook, rulebookWorth.strength, tally)
      return [beta('signs', [id, cause], rulebook, shop, rulebookWorth.strength, tally)]
    }),
    ...Object.entries(counts.telling).flatMap(([way, tally]) => {
      const rulebook = ways.get(way as never)
      if (rulebook === undefined || rulebook === 1) return []
      const shop = afterTelling(rulebook, tally)
      return [beta('telling', [way], rulebook, shop, rulebookWorth.telling, tally)]
    }),
  ]
  return all.sort((a, b) => weightOf(b) - weightOf(a))
}

const weightOf = ({ group, of, hits }: LearnedFigure): number => (group === 'shares' ? hits! : of)
