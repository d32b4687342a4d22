/** What a learner knows, and what they mix up with what. From results alone; nothing of it is stored. */
import type { Forecast, MurphyParts } from './confidence.js'
import { murphyParts } from './confidence.js'
import { inTime } from './items.js'
import { ratingOf } from './recall.js'
import type { Result } from './result.js'
import { pointsOn } from './result.js'

/** One cause, as often as it was there. */
export interface CauseMastery {
  readonly kind: string
  readonly cause: string
  /** exercises in which it was there, and those of them in which it was found (rated 3 or 4) */
  readonly times: number
  readonly found: number
  /** mean points on it; exercises without points count as 0 */
  readonly points: number
  /** oldest first */
  readonly history: readonly { readonly at: string; readonly points: number; readonly found: boolean }[]
  /** found the last three times running */
  readonly mastered: boolean
}

/** Times running that it has to be found. */
const running = 3

/** By kind and cause, in the order in which they first came. */
export function masteryOf(results: readonly Result[]): CauseMastery[] {
  const causes = new Map<
    string,
    { kind: string; cause: string; history: CauseMastery['history'][number][] }
  >()
  for (const result of inTime(results))
    for (const cause of result.causes) {
      const key = `${result.kind}|${cause}`
      const it = causes.get(key) ?? { kind: result.kind, cause, history: [] }
      causes.set(key, it)
      const found = ratingOf(result, cause) >= 3
      it.history.push({ at: result.at, points: pointsOn(result, cause), found })
    }
  return [...causes.values()].map(({ kind, cause, history }) => ({
    kind,
    cause,
    times: history.length,
    found: history.filter((it) => it.found).length,
    points: history.reduce((sum, it) => sum + it.points, 0) / history.length,
    history,
    mastered: history.length >= running && history.slice(-running).every((it) => it.found),
  }))
}

/** Where the points went when a cause was there. The points of a row come to 100. */
export interface MixUpRow {
  readonly cause: string
  /** exercises with points in which it was there; one with k causes counts as 1/k */
  readonly weight: number
  /** mean points by the cause that got them; on the right one also those of others that were there with it */
  readonly points: Readonly<Record<string, number>>
  readonly other: number
}

/** The confusion picture of one kind, rows in the order in which the causes first came. */
export function mixUpsOf(results: readonly Result[], kind: string): MixUpRow[] {
  const rows = new Map<string, { weight: number; points: Map<string, number>; other: number }>()
  for (const { spread, causes, kind: its } of inTime(results)) {
    if (its !== kind || !spread) continue
    for (const cause of causes) {
      const row = rows.get(cause) ?? { weight: 0, points: new Map<string, number>(), other: 0 }
      rows.set(cause, row)
      const part = 1 / causes.length
      row.weight += part
      row.other += part * spread.other
      for (const [id, points] of Object.entries(spread.points)) {
        // what lies on another that was there too is right as well: nothing was mixed up
        const got = causes.includes(id) ? cause : id
        row.points.set(got, (row.points.get(got) ?? 0) + part * points)
      }
    }
  }
  return [...rows].map(([cause, { weight, points, other }]) => ({
    cause,
    weight,
    points: Object.fromEntries([...points].map(([id, sum]) => [id, sum / weight])),
    other: other / weight,
  }))
}

/** A learner's whole record of points: the mean of Brier's score over exercises, and Murphy's parts over all suspects. */
export function confidenceOf(
  results: readonly Result[],
): { readonly exercises: number; readonly brier: number; readonly parts: MurphyParts } | undefined {
  const scored = results.filter(({ brier }) => brier !== undefined)
  const record: Forecast[] = scored.flatMap(({ forecasts }) => forecasts)
  const parts = murphyParts(record)
  if (!parts) return undefined
  return {
    exercises: scored.length,
    brier: scored.reduce((sum, { brier }) => sum + brier!, 0) / scored.length,
    parts,
  }
}
