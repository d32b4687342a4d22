/** How the rate moves: coming up to speed, sinking in hair, drifting. */
import type { DropOut, Droop, Moment } from './heard.js'
import { median } from './follow.js'

type Rated = Moment & { readonly perMinute: number }
const rated = (track: readonly Moment[]) => track.filter((it): it is Rated => it.perMinute !== null)

/** A rate within so much of its usual one is at its rate. */
const near = 0.03
/** A droop lasts at least so long; less is a stumble. */
const lasts = 0.3
/** Around a drop-out and after the switch the rate tells of those. */
const margin = 0.45

/** What the rate is when nothing holds it back: the level that it keeps to at its better times. */
export function freeRate(track: readonly Moment[]): number {
  const rates = rated(track)
    .map(({ perMinute }) => perMinute)
    .sort((a, b) => a - b)
  return median(rates.slice(Math.floor(rates.length / 2)))
}

/** Seconds from the switch until it is at its rate; null if it ran from the beginning. */
export function startUpOf(track: readonly Moment[], from: number): number | null {
  if (from < 0.15) return null
  const free = freeRate(track)
  const there = rated(track).find(({ at, perMinute }) => at >= from && perMinute > free * (1 - near))
  return there ? Math.max(0, there.at - from) : null
}

/** The moments at which it runs undisturbed: not just switched on, not next to a drop-out. */
export function undisturbed(
  track: readonly Moment[],
  running: { from: number; to: number },
  startUp: number | null,
  dropOuts: readonly DropOut[],
): readonly Moment[] {
  const begins = startUp === null ? 0 : running.from + startUp + 0.15
  return track.filter(
    ({ at, perMinute }) =>
      perMinute !== null &&
      at >= begins &&
      at <= running.to &&
      !dropOuts.some((it) => Math.abs(it.at - at) < it.seconds / 2 + margin),
  )
}

/** The deepest fall of the rate that lasts. */
export function droopOf(moments: readonly Moment[]): Droop | null {
  const free = freeRate(moments)
  let deepest: Droop | null = null
  let low: Rated[] = []
  const close = (recovered: boolean) => {
    const seconds = low.length > 1 ? low[low.length - 1]!.at - low[0]!.at : 0
    // the lowest quarter, not the lowest moment
    const rates = low.map(({ perMinute }) => perMinute).sort((a, b) => a - b)
    const bottom = median(rates.slice(0, Math.ceil(rates.length / 4)))
    const percent = 100 * (1 - bottom / free)
    if (seconds >= lasts && percent > (deepest?.percent ?? 0))
      deepest = { at: low[0]!.at, seconds, percent, recovered }
    low = []
  }
  for (const moment of rated(moments)) {
    if (moment.perMinute < free * (1 - near)) low.push(moment)
    else close(true)
  }
  close(false)
  return deepest
}

/** The straight line through the moments outside a droop from which it recovered: least squares. */
export function driftOf(
  moments: readonly Moment[],
  droop: Droop | null,
): { percent: number; plusMinus: number } | null {
  const outside = rated(moments).filter(
    ({ at }) => !droop?.recovered || at < droop.at - 0.2 || at > droop.at + droop.seconds + 0.2,
  )
  if (outside.length < 20) return null
  const mean = (values: readonly number[]) => values.reduce((a, b) => a + b, 0) / values.length
  const middle = mean(outside.map(({ at }) => at))
  const rate = mean(outside.map(({ perMinute }) => perMinute))
  const spread = outside.reduce((sum, { at }) => sum + (at - middle) ** 2, 0)
  const slope =
    outside.reduce((sum, { at, perMinute }) => sum + (at - middle) * (perMinute - rate), 0) / spread
  const left = outside.reduce(
    (sum, { at, perMinute }) => sum + (perMinute - rate - slope * (at - middle)) ** 2,
    0,
  )
  // frames overlap by three quarters: four are worth about one
  const error = Math.sqrt((4 * left) / (outside.length - 2) / spread)
  return { percent: (6000 * slope) / rate, plusMinus: (1.96 * 6000 * error) / rate }
}
