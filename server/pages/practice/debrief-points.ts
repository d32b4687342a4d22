/** What was believed before the first repair, beside what the answers allowed and what was so. */
import type { Spread } from '../../../shared/practice.js'
import { brierScore, forecastsOf } from '../../practice/confidence.js'
import type { Debrief } from '../../practice/debrief.js'
import type { Played } from '../../practice/played.js'
import { namesAny } from '../../practice/take-along.js'

export interface PointsView {
  readonly rows: readonly {
    readonly name: string
    readonly yours: number
    readonly plans: number
    readonly so: string
    readonly isThere: boolean
  }[]
  readonly verdict: string
  readonly distance: string
}

/** @returns null where no suspects were given */
export function pointsOf({ desk }: Played, debrief: Debrief): PointsView | null {
  const { spread, planSpread, causes } = debrief
  if (!spread || !planSpread || !namesAny(spread)) return null
  const { model } = desk.kind
  const suspects = model.causes.map(({ id }) => id)
  const named = suspects.filter(
    (id) => (spread.points[id] ?? 0) > 0 || (planSpread.points[id] ?? 0) > 0 || causes.includes(id),
  )
  const rows = named
    .map((id) => ({
      name: model.causes[model.causeIndex.get(id)!]!.name,
      yours: spread.points[id] ?? 0,
      plans: planSpread.points[id] ?? 0,
      so: causes.includes(id) ? 'it was there' : 'not there',
      isThere: causes.includes(id),
    }))
    .sort((a, b) => b.yours - a.yours || b.plans - a.plans)
  const other = spread.other > 0 || planSpread.other > 0
  const outside = causes.some((id) => !(spread.points[id] ?? 0))
  const rest = {
    name: 'Something else',
    yours: spread.other,
    plans: planSpread.other,
    so: outside ? 'it was among these' : 'nothing else',
    isThere: false,
  }
  return {
    rows: other ? [...rows, rest] : rows,
    verdict: verdictOf(spread, causes),
    distance: distanceWords(spread, planSpread, suspects, causes),
  }
}

const sure = 80
const leaning = 50

function verdictOf({ points, other }: Spread, causes: readonly string[]): string {
  const right = causes.reduce((sum, id) => sum + (points[id] ?? 0), 0)
  const wrong = Math.max(0, ...Object.keys(points).map((id) => (causes.includes(id) ? 0 : points[id]!)))
  if (right >= sure) return 'Sure and right.'
  if (right >= leaning) return 'Right, and not quite sure.'
  if (wrong >= sure) return 'Sure and wrong.'
  if (wrong >= leaning) return 'Leaning the wrong way.'
  return other >= leaning ? 'You left it open.' : 'Undecided.'
}

/** Hundredths that nobody would notice. */
const close = 5
/** Brier's score as a count of hundredths: 0 is spot on. */
const off = (spread: Spread, suspects: readonly string[], causes: readonly string[]): number =>
  Math.round(100 * brierScore(forecastsOf(spread, suspects, causes)))

function distanceWords(
  yours: Spread,
  plans: Spread,
  suspects: readonly string[],
  causes: readonly string[],
): string {
  const blind: Spread = { points: {}, other: 100 }
  const own = off(yours, suspects, causes)
  if (own <= off(plans, suspects, causes) + close) return 'As close as the answers allowed.'
  return own < off(blind, suspects, causes)
    ? 'Closer than a blind guess, and the answers allowed more.'
    : 'No closer than a blind guess: the points went to the wrong ones.'
}
