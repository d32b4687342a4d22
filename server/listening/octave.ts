/**
 * Which of the rates that fit a comb is the stroke: the comb itself, half of it, or a few times as much.
 *
 * A stroke goes there and back, and its two ends are never quite alike. So it sounds at its rate and at twice its rate,
 * and what lies at odd multiples says how unlike the ends are. An arm that the mains pulls twice a cycle shows a little
 * of the cycle itself, an arm with a magnet moves once a cycle and shows much of it. A knock at every second or third
 * stroke shows that too: then the sound alone does not settle it.
 */
import { median } from './follow.js'
import type { Frames } from './frames.js'
import type { Context } from './heard.js'
import { decibels, shareOf } from './shares.js'

/** Multiples in between so far under the others are none. */
const none = -24
/** Up to here the comb may be a stroke's knock, a few strokes apart; above, it is the stroke. */
const unlike = -6
/** An arm pulled twice a cycle shows the cycle itself this far under or less, one with a magnet this far or more. */
const uneven = -16
const magnet = -10
const sure = 5

/**
 * @param hertz by frame, of the comb that was followed
 * @returns the multiple of it that is the stroke; null where the sound leaves it open
 */
export function strokeOf(
  frames: Frames,
  hertz: Float64Array,
  used: readonly number[],
  context: Context,
): number | null {
  const middle = median(used.map((t) => hertz[t]!)) * 60
  const share = (first: number, step: number) => shareOf(frames, hertz, used, { first, step })
  /** what lies between the multiples of `times` bases, in decibels under those multiples; −∞ where nothing is seen */
  const between = (base: number, times: number): number => {
    const inside = Array.from({ length: times - 1 }, (_, i) => share((i + 1) * base, times * base))
    if (Math.max(...inside.map((it) => it.sure)) < sure) return -Infinity
    const power = inside.reduce((sum, it) => sum + it.power, 0)
    const level = decibels(power / Math.max(1e-30, share(times * base, times * base).power))
    return level < none ? -Infinity : level
  }
  const fits = (m: number) =>
    middle * m >= context.between[0] * 0.97 && middle * m <= context.between[1] * 1.03
  const base = between(0.5, 2) > -Infinity ? 0.5 : 1
  const levels = [2, 3, 4].map((times) => ({ times, level: between(base, times) }))
  // what shows nothing in between was followed too low
  const empty = levels.filter(({ level }) => level === -Infinity).pop()
  if (empty) return fits(base * empty.times) ? base * empty.times : fits(base) ? base : null
  const twice = levels[0]!.level
  if (context.drive === 'mains' && twice < uneven && fits(2 * base)) return 2 * base
  if (context.drive === 'mains' && twice > magnet && fits(base)) return base
  const open = [1, ...levels.filter(({ level }) => level < unlike).map(({ times }) => times)]
    .map((times) => times * base)
    .filter(fits)
  if (open.length <= 1) return open[0] ?? null
  const { expected } = context
  if (expected === null || context.drive === 'mains') return null
  return open.reduce((best, m) => (apart(middle * m, expected) < apart(middle * best, expected) ? m : best))
}

const apart = (a: number, b: number) => Math.abs(Math.log(a / b))
