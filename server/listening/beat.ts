/** A knock or a rattle: the loudness of the upper band rises and falls at a rate below the strokes'. */
import { biquad } from './biquad.js'
import { powersOf } from './spectrum.js'
import type { Sound } from './working-rate.js'

/** Samples that are looked at together, about 6 ms. */
const look = 64
const highBand = 900
/** The loudness is looked at in stretches of so many seconds, so that a rate that drifts still makes a line. */
const stretch = 2
/** Slower than this is somebody's hand, faster than this share of the strokes is the strokes themselves. */
const slowest = 2.5
const belowStrokes = 0.72
/** A line in the loudness stands so many times over its neighbours, and moves the loudness by such a share. */
const stands = 8
const deep = 0.08

/**
 * @param hertz of the strokes
 * @param own   shares of that rate at which the strokes themselves come and go: no knock
 * @returns beats a minute; null if there is none
 */
export function beatOf(sound: Sound, hertz: number, own: readonly number[]): number | null {
  const hop = look / 8
  const loudness = loudnessOf(sound, hop)
  const size = 2 ** Math.round(Math.log2((stretch * sound.rate) / hop))
  if (loudness.length < size) return null
  const lines = meanPowers(loudness, size)
  const spacing = sound.rate / hop / size
  const last = Math.min(lines.length - 3, Math.floor((belowStrokes * hertz) / spacing))
  const peaks: { at: number; power: number }[] = []
  for (let k = Math.ceil(slowest / spacing); k <= last; k++) {
    const power = lines[k]!
    if (power < lines[k - 1]! || power < lines[k + 1]! || Math.sqrt(power) < deep / 2) continue
    if (power < stands * around(lines, k, Math.ceil(6 / spacing))) continue
    if (own.some((share) => Math.abs((k * spacing) / hertz - share) < 0.02)) continue
    peaks.push({ at: k * spacing, power })
  }
  const loudest = Math.max(0, ...peaks.map(({ power }) => power))
  // a knock has harmonics of its own: the lowest that is not far weaker is the knock
  const found = peaks.find(({ power }) => power > loudest / 6)
  return found ? 60 * found.at : null
}

/** Mean of the powers of overlapping stretches (Welch's method). */
function meanPowers(values: Float32Array, size: number): Float32Array {
  const mean = new Float32Array(size / 2 + 1)
  const one = new Float32Array(size / 2 + 1)
  const powers = powersOf(size)
  const count = Math.floor((values.length - size) / (size / 2)) + 1
  for (let i = 0; i < count; i++) {
    powers(values, (i * size) / 2, one)
    for (let k = 0; k < mean.length; k++) mean[k]! += one[k]! / count
  }
  return mean
}

/** Square root of the power above `highBand`, as shares of its mean, less that mean. */
function loudnessOf({ samples, rate }: Sound, hop: number): Float32Array {
  const high = biquad(biquad(samples, 'high', highBand, rate), 'high', highBand, rate)
  // Hann's window squared: nothing quicker than a hop folds down into a beat
  const window = Float64Array.from(
    { length: look },
    (_, n) => ((1 - Math.cos((2 * Math.PI * (n + 0.5)) / look)) / 2) ** 2,
  )
  const loud = Float32Array.from(
    { length: Math.max(0, Math.floor((samples.length - look) / hop) + 1) },
    (_, t) => {
      let sum = 0
      for (let n = 0; n < look; n++) sum += window[n]! * high[t * hop + n]! ** 2
      return Math.sqrt(sum)
    },
  )
  const mean = loud.reduce((a, b) => a + b, 0) / Math.max(1, loud.length) || 1
  return loud.map((value) => value / mean - 1)
}

/** The middle one of the powers around. */
function around(lines: Float32Array, k: number, half: number): number {
  const near = lines.slice(Math.max(1, k - half), k + half + 1).sort()
  return near[near.length >> 1]! + 1e-12
}
