/** How like what was said is to the ways in which a statement is said. */
import type { Clause } from './clauses.js'
import type { Way, Ways } from './ways.js'

export interface Likeness {
  /** share of the way that was said, by weight, in (0, 1] */
  readonly heard: number
  /** share of what was said around there that the way accounts for, by weight, in (0, 1] */
  readonly covered: number
  /** the same of all that was said */
  readonly coveredOfAll: number
  /** weight of what is shared: a telling word has more than one that many statements share */
  readonly shared: number
  /** borders between clauses that lie inside */
  readonly joins: number
  /** which of the things said it rests on, by place in the whole */
  readonly places: ReadonlySet<number>
}

/** At most so many clauses are read as one: "works on the cord but not off it". */
const together = 3

export interface Window {
  readonly said: Clause
  /** place of its first word in the whole */
  readonly first: number
  readonly joins: number
  readonly weight: number
  readonly weightOfAll: number
}

/** Every run of up to three clauses. */
export function windowsOf(ways: Ways, clauses: readonly Clause[]): Window[] {
  const weightOf = (said: Clause) => said.reduce((sum, { meanings }) => sum + ways.weigh(meanings), 0)
  const weightOfAll = weightOf(clauses.flat())
  return clauses.flatMap((_, start) =>
    clauses.slice(start, start + together).map((_, joins) => {
      const said = clauses.slice(start, start + joins + 1).flat()
      const first = clauses.slice(0, start).flat().length
      return { said, first, joins, weight: weightOf(said), weightOfAll }
    }),
  )
}

/** The likeness of one way to one window, or null where they share nothing. */
export function likeness(ways: Ways, way: Way, window: Window): Likeness | null {
  const places = new Set<number>()
  let shared = 0
  for (const { meanings } of way.said) {
    const at = window.said.findIndex(
      (said, i) => !places.has(window.first + i) && said.meanings.some((it) => meanings.includes(it)),
    )
    if (at < 0) continue
    places.add(window.first + at)
    const common = window.said[at]!.meanings.filter((it) => meanings.includes(it))
    // a way that may mean two things is half heard where one of them was said
    shared += (ways.weigh(common) * common.length) / meanings.length
  }
  if (shared === 0) return null
  return {
    heard: Math.min(1, shared / way.weight),
    covered: Math.min(1, shared / window.weight),
    coveredOfAll: Math.min(1, shared / window.weightOfAll),
    shared,
    joins: window.joins,
    places,
  }
}
