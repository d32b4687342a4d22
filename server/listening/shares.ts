/** How much of the sound lies at a set of multiples of the rate, over all frames at once. */
import { highest, lowest } from './follow.js'
import type { Frames } from './frames.js'
import { topOffset } from './spectrum.js'

export interface Share {
  /** mean power over the noise */
  readonly power: number
  /** how far above what noise alone would give, in its standard deviations */
  readonly sure: number
}

/** Frames overlap by three quarters, so that two are worth one. */
const worth = 0.5

/**
 * @param hertz  by frame
 * @param used   the frames that count
 * @param orders multiples of the rate, such as 1, 2, 3 or ½, 1½, 2½: the first and the step
 */
export function shareOf(
  frames: Frames,
  hertz: Float64Array,
  used: readonly number[],
  { first, step }: { first: number; step: number },
): Share {
  let power = 0
  let excess = 0
  let terms = 0
  for (const t of used) {
    const at = t * frames.bins
    for (let order = first; order * hertz[t]! <= highest; order += step) {
      if (order * hertz[t]! < lowest) continue
      const k = Math.round((order * hertz[t]!) / frames.spacing)
      const noise = frames.floor[at + k]!
      power += frames.power[at + k]! - noise
      // one loud tone by chance at such a place is not a comb
      excess += Math.min(6, frames.power[at + k]! / noise) - 1
      terms++
    }
  }
  return {
    power: Math.max(0, power / Math.max(1, used.length)),
    sure: terms === 0 ? 0 : (excess / terms) * Math.sqrt(terms * worth),
  }
}

export const decibels = (ratio: number) => 10 * Math.log10(Math.max(1e-12, ratio))

/** How much of all tones lies near the multiples of a rate, from 0 to 1. */
export function explained(frames: Frames, hertz: Float64Array, used: readonly number[]): number {
  let all = 0
  let own = 0
  const last = Math.floor(highest / frames.spacing)
  for (const t of used) {
    const at = t * frames.bins
    const taken = new Set<number>()
    for (let k = Math.ceil(lowest / frames.spacing); k <= last; k++)
      all += Math.max(0, frames.power[at + k]! - 4 * frames.floor[at + k]!)
    for (let order = 1; order * hertz[t]! < highest; order++)
      for (const beside of [-2, -1, 0, 1, 2]) {
        const k = Math.round((order * hertz[t]!) / frames.spacing) + beside
        if (k * frames.spacing < lowest || k > last || taken.has(k)) continue
        taken.add(k)
        own += Math.max(0, frames.power[at + k]! - 4 * frames.floor[at + k]!)
      }
  }
  return all > 0 ? own / all : 0
}

/** A top of one tool's comb is found within so many hertz, also where the rate moves in the frame. */
const near = 1.6
/** A top stands so many times over the noise. */
const stands = 16

/**
 * How much of the tones lies beside the multiples of a rate, from 0 to 1. One tool's tops lie on them; another tool's lie
 * on a few by chance, and there beside them, even where its rate is a few parts in a hundred from this one or from a
 * multiple of it.
 */
export function beside(frames: Frames, hertz: Float64Array, used: readonly number[]): number {
  const last = Math.floor(highest / frames.spacing)
  let all = 0
  let off = 0
  for (const t of used) {
    const at = t * frames.bins
    for (let k = Math.ceil(lowest / frames.spacing); k <= last; k++) {
      const power = frames.power[at + k]!
      const top = power >= frames.power[at + k - 1]! && power >= frames.power[at + k + 1]!
      if (!top || power < stands * frames.floor[at + k]!) continue
      const tone = (k + topOffset(frames.power, at + k)) * frames.spacing
      all += power
      if (Math.abs(tone - Math.round(tone / hertz[t]!) * hertz[t]!) > near) off += power
    }
  }
  return all > 0 ? off / all : 0
}
