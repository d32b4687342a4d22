/**
 * Following the rate through a sound: McLeod's method frame by frame (McLeod and Wyvill, "A smarter way to find pitch",
 * 2005; the package pitchy), then each frame's rate sharpened by the tops of its harmonics.
 */
import { PitchDetector } from 'pitchy'
import type { Frames } from './frames.js'
import { topOffset } from './spectrum.js'
import { atWorkingRate } from './working-rate.js'
import type { Sound } from './working-rate.js'

export interface Followed {
  /** by frame: hertz at which it repeats; the middle one of all where it does not */
  readonly hertz: Float64Array
  /** the frames in which its harmonics stand out of the noise */
  readonly used: readonly number[]
}

/** How alike a frame is to itself a period later, from 0 to 1: noise of this length stays below a quarter. */
const clear = 0.3
/** Tones outside are no strokes and no multiple of strokes that one would follow. */
const [slowest, fastest] = [20, 420]
/** A rate within this factor of the middle one is the tool's own, in hair or tired. */
const apart = 1.6
const runUp = 1.25
/** Harmonics between these tell of the rate: a phone hears little below, and a rate that moves blurs what is above. */
export const [lowest, highest] = [70, 1500]
/** Where the whole recording says which rate it is, a frame need not say it alone: noise by itself gives about −0.85. */
const faint = -0.4
/** Seconds: half a dozen periods of the slowest strokes, and a motor holds its rate so long. */
const look = 0.25
/** Samples a second for the pitch of a frame: what it leaves open the tops of the harmonics settle. */
const pitchRate = 4000

/** @param around hertz near which the tool's rate lies; without it, the middle one of what the frames say */
export function follow(sound: Sound, frames: Frames, around?: number): Followed {
  const { samples, rate } = atWorkingRate(sound.samples, sound.rate, pitchRate)
  const size = 2 ** Math.round(Math.log2(look * rate))
  const detector = PitchDetector.forFloat32Array(size)
  const found = Array.from({ length: frames.count }, (_, t) => {
    const start = Math.round((t * frames.hop + frames.length / 2) * rate - size / 2)
    const [hertz, clarity] = detector.findPitch(samples.subarray(start, start + size), rate)
    return clarity > clear && hertz > slowest && hertz < fastest ? hertz : null
  })
  const middle = around ?? median(found.flatMap((hertz) => hertz ?? []))
  const hertz = new Float64Array(frames.count).fill(middle)
  const used: number[] = []
  let last = middle
  found.forEach((value, t) => {
    const folded = value === null ? middle : foldedOf(frames, t, value, middle)
    // where a frame alone does not say, it may go on as the one before, or as all together
    const rates = [folded, last, middle].map((it) => refined(frames, t, it))
    const best = rates.reduce((a, b) => (presence(frames, t, b) > presence(frames, t, a) + 0.1 ? b : a))
    if (!within(best, middle) || presence(frames, t, best) < (around === undefined ? 0 : faint)) return
    hertz[t] = last = best
    used.push(t)
  })
  // Nobody runs it faster in between: that is twice a rate in hair, whose odd harmonics drown.
  const runsUp = (t: number | undefined) => t !== undefined && hertz[t]! > middle * runUp
  if (!runsUp(used[0]) && !runsUp(used.at(-1))) for (const t of used) if (runsUp(t)) hertz[t]! /= 2
  return { hertz, used }
}

/** What the loudest of three neighbouring powers of noise has over its mean, and half as much again: e to the power of this. */
const noise = 1.2
const most = 4

/**
 * The multiple or part of a frame's rate that is the tool's. Where hair holds it back by three tenths, twice its rate
 * lies as near to the middle one: it is the lower one if that shows what the upper one has not, its odd harmonics.
 */
function foldedOf(frames: Frames, t: number, value: number, middle: number): number {
  const near = [1, 2, 0.5, 3, 1 / 3].map((m) => m * value).find((it) => within(it, middle)) ?? middle
  return within(near / 2, middle) && presence(frames, t, near / 2, 2) > 0 ? near / 2 : near
}

/**
 * How far the harmonics of a rate stand out of the noise, on average; below 0 where there is only noise.
 *
 * @param step 2 for the odd ones alone
 */
function presence(frames: Frames, t: number, hertz: number, step: 1 | 2 = 1): number {
  const at = t * frames.bins
  let sum = 0
  let count = 0
  const first = Math.ceil(lowest / hertz)
  for (let h = step === 2 ? first | 1 : first; h * hertz <= highest; h += step) {
    const k = at + Math.round((h * hertz) / frames.spacing)
    const peak = Math.max(frames.power[k - 1]!, frames.power[k]!, frames.power[k + 1]!)
    sum += Math.min(most, Math.log(peak / frames.floor[k]! + 1e-9))
    count++
  }
  return sum / Math.max(1, count) - noise
}

const within = (hertz: number, middle: number) => hertz < middle * apart && hertz > middle / apart

/**
 * The rate from the tops of its harmonics: least squares, each harmonic with its number squared and its power over
 * noise, as the Fisher information of a pitch weighs them (Christensen and Jakobsson, Multi-Pitch Estimation, 2009).
 * Low harmonics first, so that a rate that is a little off still finds the right tops of the high ones.
 */
function refined(frames: Frames, t: number, hertz: number): number {
  return [350, highest].reduce((rate, top) => sharpened(frames, t, rate, top), hertz)
}

function sharpened(frames: Frames, t: number, hertz: number, top: number): number {
  const at = t * frames.bins
  let above = 0
  let below = 0
  for (let h = Math.ceil(lowest / hertz); h * hertz <= top; h++) {
    const near = Math.round((h * hertz) / frames.spacing)
    let k = near
    for (const beside of [near - 1, near + 1])
      if (frames.power[at + beside]! > frames.power[at + k]!) k = beside
    const peak = (k + topOffset(frames.power, at + k)) * frames.spacing
    const off = peak / h - hertz
    // a top further off than a bin belongs to something else
    if (Math.abs(off * h) > frames.spacing) continue
    const weight = Math.min(1000, Math.max(0, frames.power[at + k]! / frames.floor[at + k]! - 4)) * h * h
    above += weight * off
    below += weight
  }
  return below > 0 ? hertz + above / below : hertz
}

export function median(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b)
  const half = sorted.length >> 1
  return sorted.length === 0
    ? NaN
    : sorted.length % 2
      ? sorted[half]!
      : (sorted[half - 1]! + sorted[half]!) / 2
}
