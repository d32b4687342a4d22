/** How loudness moves over a recording: the tool's own, and that of the noise between its tones. */
import type { Frames } from './frames.js'
import type { Trend } from './heard.js'
import type { Level } from './level.js'
import { median } from './follow.js'

/** Less than this many seconds say nothing of a minute. */
const leastForTrend = 30
/** The recording is cut into so many stretches: what comes and goes in the room moves one of them, not the line. */
const stretches = 8
/** Student's t for 19 times in 20 at two degrees less than there are stretches. */
const student = 2.447
/** Edges that run dry hiss above this; hum, strokes and voices lie mostly below. */
const hissFrom = 1000

type Running = { readonly from: number; readonly to: number }

/** Of what lies between its tones: dry edges and dry bearings hiss, and the room's noise under them stays as it is. */
export function noiseTrend(frames: Frames, running: Running): Trend | null {
  const first = Math.ceil(hissFrom / frames.spacing)
  const hiss = Array.from({ length: frames.count }, (_, t) => {
    let sum = 0
    for (let k = first; k < frames.bins; k++) sum += frames.floor[t * frames.bins + k]!
    return { at: t * frames.hop + frames.length / 2, power: sum }
  })
  return trendOf(hiss, running)
}

/** Of the tool itself, the noise taken off. */
export function loudnessTrend(level: Level, running: Running): Trend | null {
  return trendOf(
    Array.from(level.values, (value, t) => ({
      at: t * level.hop + level.length / 2,
      power: value - level.silent,
    })),
    running,
  )
}

/**
 * A dryer that starts in the room is one step up and no climb: the largest of the steps between stretches is made the
 * mean of the others, which leaves a climb as it is.
 */
function withoutStep(middles: readonly number[]): readonly number[] {
  const steps = middles.slice(1).map((it, i) => it - middles[i]!)
  const at = steps.reduce((most, step, i) => (Math.abs(step) > Math.abs(steps[most]!) ? i : most), 0)
  const others = (steps.reduce((a, b) => a + b, 0) - steps[at]!) / (steps.length - 1)
  return middles.map((it, i) => (i > at ? it - steps[at]! + others : it))
}

/** The straight line through the middle of each stretch, in decibels; its doubt is what the stretches leave. */
function trendOf(
  values: readonly { readonly at: number; readonly power: number }[],
  { from, to }: Running,
): Trend | null {
  if (to - from < leastForTrend) return null
  const wide = (to - from) / stretches
  const heard = Array.from({ length: stretches }, (_, i) => {
    const here = values.filter(({ at }) => at >= from + i * wide && at < from + (i + 1) * wide)
    return 10 * Math.log10(Math.max(1e-12, median(here.map(({ power }) => power))))
  })
  const middles = withoutStep(heard)
  const centre = (stretches - 1) / 2
  const mean = middles.reduce((a, b) => a + b, 0) / stretches
  const spread = middles.reduce((sum, _, i) => sum + (i - centre) ** 2, 0)
  const slope = middles.reduce((sum, it, i) => sum + (i - centre) * (it - mean), 0) / spread
  const left = middles.reduce((sum, it, i) => sum + (it - mean - slope * (i - centre)) ** 2, 0)
  const error = Math.sqrt(left / (stretches - 2) / spread)
  const minute = 60 / wide
  return { decibels: slope * minute, plusMinus: student * error * minute }
}
