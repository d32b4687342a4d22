/** Whether a sound carries an answer at all. */
import type { Followed } from './follow.js'
import { median } from './follow.js'
import type { Frames } from './frames.js'
import { beside, decibels, explained, shareOf } from './shares.js'

/** Root mean square below this of full scale is the microphone's own noise: −70 dB. */
const audible = 10 ** (-70 / 20)

export function quiet(samples: Float32Array): boolean {
  let power = 0
  // plain loops, as everywhere that every sample is looked at
  for (let n = 0; n < samples.length; n++) power += samples[n]! * samples[n]!
  return power / samples.length < audible ** 2
}

/** So many samples at full scale are a sound with its tops cut off. */
const mostClipped = 0.01

export function overdriven(samples: Float32Array): boolean {
  let clipped = 0
  for (let n = 0; n < samples.length; n++) if (Math.abs(samples[n]!) >= 0.999) clipped++
  return clipped > mostClipped * samples.length
}

/** From frame to frame a motor moves by less than this, but for its starts and stops. */
const moves = 0.02

/** Is a comb there, and quietly there, in two frames of five? */
export function steady({ hertz, used }: Followed): boolean {
  const known = new Set(used)
  const quietly = used.filter(
    (t) => known.has(t - 1) && Math.abs(Math.log(hertz[t]! / hertz[t - 1]!)) < moves,
  )
  return quietly.length >= 0.4 * hertz.length
}

/** A hum has tones at the first few multiples of twice the mains and no others; those of blows go on. */
const humEnds = 5
const under = -25
const humAlone = 0.9

/** Is it the mains alone that sounds, and nothing that strikes? */
export function onlyHum(frames: Frames, mains: number): boolean {
  const all = Array.from({ length: frames.count }, (_, t) => t)
  const tone = new Float64Array(frames.count).fill(2 * mains)
  if (explained(frames, tone, all) < humAlone) return false
  const sum = shareOf(frames, tone, all, { first: 1, step: 1 })
  const upper = shareOf(frames, tone, all, { first: humEnds, step: 1 })
  return sum.sure > 5 && decibels(upper.power / sum.power) < under
}

/** The grid strays so far from its hertz (EN 50160: 1 % for nearly all of a year, some parts in a thousand as a rule). */
const gridStrays = 0.003
/** From frame to frame the grid moves less than this, and any motor moves more. */
const gridMoves = 2.5e-4

/**
 * Does a motor's rate hold to the mains as no motor does? Then it is a rich hum: of a motor that is stuck, or of
 * something else in the room.
 */
export function boundToMains(hertz: Float64Array, used: readonly number[], mains: number): boolean {
  const middle = median(used.map((t) => hertz[t]!))
  const nearest = Math.max(1, Math.round(middle / mains)) * mains
  if (Math.abs(middle / nearest - 1) > gridStrays) return false
  return median(used.map((t) => Math.abs(hertz[t]! / middle - 1))) < gridMoves
}

/** One tool and its gear leave no more than this of the tones to somebody else. */
const others = 0.06

/** @param hertz by frame, of the lowest comb that belongs to the tool */
export function twoTools(frames: Frames, hertz: Float64Array, used: readonly number[]): boolean {
  return beside(frames, hertz, used) > others
}
