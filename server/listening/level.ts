/** How loud the tool is from hundredth to hundredth of a second, told apart from the noise by where it sounds. */
import type { Frames } from './frames.js'
import { powersOf } from './spectrum.js'
import type { Sound } from './working-rate.js'

export interface Level {
  /** seconds from one value to the next; the first is at half a `length` */
  readonly hop: number
  readonly length: number
  /** as shares of the tool's usual level: 1 while it runs, `silent` and less while it does not */
  readonly values: Float32Array
  readonly silent: number
}

/** A look takes in so many strokes, so that one stroke makes no silence, and at least so many seconds. */
const strokes = 3
const seconds = 0.06
const hopSeconds = 0.008

/**
 * Each band counts by how far the tool stands over the noise in it, as the best detector of a sound in noise weighs them.
 *
 * @param used  frames in which the tool runs
 * @param hertz of its strokes
 */
export function levelOf(sound: Sound, frames: Frames, used: readonly number[], hertz: number): Level {
  const size = 2 ** Math.round(Math.log2(Math.max(seconds, strokes / hertz) * sound.rate))
  const step = Math.max(1, Math.round(hopSeconds * sound.rate))
  const bins = size / 2 + 1
  const weights = weightsFor(frames, used, bins)
  const powers = powersOf(size)
  const power = new Float32Array(bins)
  const count = Math.max(0, Math.floor((sound.samples.length - size) / step) + 1)
  const values = new Float32Array(count)
  for (let t = 0; t < count; t++) {
    powers(sound.samples, t * step, power)
    let sum = 0
    for (let k = 0; k < bins; k++) sum += weights.tool[k]! * power[k]!
    values[t] = sum
  }
  const usual = values.slice().sort()[Math.floor(count / 2)]! || 1
  return {
    hop: step / sound.rate,
    length: size / sound.rate,
    values: values.map((value) => value / usual),
    silent: Math.min(1, weights.noiseOverTool),
  }
}

/** So far to either side tool and noise are averaged: a rate that moves stays in the same bands. */
const wide = 200

/** Weights by bin of the short frames, from what the long frames know of tool and noise. */
function weightsFor(frames: Frames, used: readonly number[], bins: number) {
  const all = new Float64Array(frames.bins + 1)
  const noise = new Float64Array(frames.bins + 1)
  for (let k = 0; k < frames.bins; k++) {
    let [sum, floor] = [0, 0]
    for (const t of used) {
      sum += frames.power[t * frames.bins + k]!
      floor += frames.floor[t * frames.bins + k]!
    }
    all[k + 1] = all[k]! + sum
    noise[k + 1] = noise[k]! + floor
  }
  const tool = new Float64Array(bins)
  let both = 0
  let alone = 0
  const ratio = (frames.bins - 1) / (bins - 1)
  const half = Math.round(wide / frames.spacing)
  for (let k = Math.ceil(90 / (frames.spacing * ratio)); k < bins - 1; k++) {
    const low = Math.max(1, Math.round(k * ratio) - half)
    const high = Math.min(frames.bins, Math.round(k * ratio) + half + 1)
    const here = all[high]! - all[low]!
    const floor = noise[high]! - noise[low]!
    if (floor <= 0 || here <= floor) continue
    tool[k] = (here - floor) / (here * floor)
    both += tool[k]! * here
    alone += tool[k]! * floor
  }
  return { tool, noiseOverTool: both > 0 ? alone / both : 1 }
}
