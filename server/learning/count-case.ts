/** What one confirmed case adds to a shop's counts. Pure. */
import type { FindingState } from '../../shared/diagnosis.js'
import type { ToldBy } from '../../shared/telling-file.js'
import type { ShopCounts, Tally } from '../../shared/situation.js'

export interface ConfirmedCase {
  readonly cause: string
  readonly states: ReadonlyMap<string, FindingState>
  readonly tried: readonly { readonly fix: string; readonly cured: boolean }[]
  /** how long a fix took, where somebody told */
  readonly took?: readonly { readonly fix: string; readonly minutes: number }[]
  /** of each screen and way of telling: the share of what was asked that was told */
  readonly told?: readonly { readonly way: ToldBy; readonly told: number }[]
}

type Tallies = Record<string, Record<string, Tally>>

export function countCases(cases: readonly ConfirmedCase[], id: string): ShopCounts {
  const causes: Record<string, number> = {}
  const findings: Tallies = {}
  const fixes: Tallies = {}
  const minutes: Record<string, { sum: number; of: number }> = {}
  const telling: Partial<Record<ToldBy, Tally>> = {}
  for (const { cause, states, tried, took = [], told = [] } of cases) {
    causes[cause] = (causes[cause] ?? 0) + 1
    for (const [finding, state] of states)
      if (state !== 'unknown') add(findings, finding, cause, state === 'yes')
    for (const { fix, cured } of tried) add(fixes, fix, cause, cured)
    for (const { fix, minutes: one } of took) {
      const { sum, of } = minutes[fix] ?? { sum: 0, of: 0 }
      minutes[fix] = { sum: sum + one, of: of + 1 }
    }
    for (const { way, told: share } of told) {
      const { hits, of } = telling[way] ?? { hits: 0, of: 0 }
      telling[way] = { hits: hits + share, of: of + 1 }
    }
  }
  return { id, cases: cases.length, causes, findings, fixes, minutes, telling }
}

function add(tallies: Tallies, what: string, cause: string, hit: boolean): void {
  const before = tallies[what]?.[cause] ?? { hits: 0, of: 0 }
  tallies[what] = { ...tallies[what], [cause]: { hits: before.hits + Number(hit), of: before.of + 1 } }
}

/**
 * About 95 in 100 of a beta law: its mean, two standard deviations to each side, within [0, 1].
 *
 * @param mean   in [0, 1]
 * @param weight what it is worth in cases, the rulebook's share of it included
 */
export function interval(mean: number, weight: number): readonly [number, number] {
  const spread = 2 * Math.sqrt((mean * (1 - mean)) / (weight + 1))
  return [Math.max(0, mean - spread), Math.min(1, mean + spread)]
}

/** Minutes of the same fix vary by about a half of their mean: an estimate. */
const minutesVary = 0.5

/** The same for mean minutes that are worth so many times told. */
export function minutesInterval(mean: number, weight: number): readonly [number, number] {
  const spread = (2 * minutesVary * mean) / Math.sqrt(weight)
  return [Math.max(0, mean - spread), mean + spread]
}
