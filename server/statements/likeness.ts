/** How like what was said is to the ways in which a statement is said. */
import type { Clause } from './clauses.js'
import type { Way, Ways } from './ways.js'

export interface Likeness {
  /** share of the way that was said, by weight, in (0, 1] */
  readonly heard: number
  /** share of what was said around there that the way accounts for, by weight, in (0, 1] */
  readonly covered: number
  /** which of the things said it rests on, by place in the whole */
  readonly places: ReadonlySet<number>
}

/** At most so many clauses are read as one: "works on the cord but not off it". */
const together = 3

interface Window {
  readonly said: Clause
  readonly first: number
  readonly weight: number
}

/** Every run of up to three clauses. */
export function windowsOf(ways: Ways, clauses: readonly Clause[]): Window[] {
  const starts = clauses.map((_, i) => clauses.slice(0, i).flat().length)
  return clauses.flatMap((_, i) =>
    clauses.slice(i, i + together).map((_, length) => {
      const said = clauses.slice(i, i + length + 1).flat()
      return {
        said,
        first: starts[i]!,
        weight: said.reduce((sum, { meanings }) => sum + ways.weigh(meanings), 0),
      }
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
  return { heard: Math.min(1, shared / way.weight), covered: Math.min(1, shared / window.weight), places }
}
