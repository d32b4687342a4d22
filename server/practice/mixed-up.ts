/** Causes taken for one another, over many exercises. */
import type { MixUpRow } from './mastery.js'
import { mixUpsOf } from './mastery.js'
import type { Result } from './result.js'

/** One cause taken for another: of 100 points, how many went to the other, over how many exercises. */
export interface MixUp {
  readonly kind: string
  readonly cause: string
  readonly other: string
  readonly points: number
  readonly times: number
}

/** Points of 100, on average, from which one cause counts as taken for another. */
const leastPoints = 20

/** Most points lost first. Of a tool with two faults neither counts as mixed up with the other. */
export function mixUpsIn(results: readonly Result[]): MixUp[] {
  const kinds = [...new Set(results.map(({ kind }) => kind))]
  return kinds
    .flatMap((kind) => mixUpsOf(results, kind).flatMap((row) => inRow(kind, row)))
    .filter(({ points }) => points >= leastPoints)
    .sort((a, b) => b.points * b.times - a.points * a.times)
}

const inRow = (kind: string, { cause, weight, points }: MixUpRow): MixUp[] =>
  Object.entries(points)
    .filter(([other]) => other !== cause)
    .map(([other, mean]) => ({ kind, cause, other, points: mean, times: Math.round(weight) }))

/** The two that a class takes for one another most, in a kind; undefined where nothing stands out. */
export function mostMixedUp(results: readonly Result[], kind: string): readonly [string, string] | undefined {
  const [most] = mixUpsIn(results.filter((it) => it.kind === kind))
  return most && [most.cause, most.other]
}
