/** The sound cut into overlapping frames of a quarter of a second, each as powers over the noise around them. */
import { powersOf } from './spectrum.js'
import type { Sound } from './working-rate.js'

export interface Frames {
  readonly count: number
  /** powers a frame */
  readonly bins: number
  /** hertz from one power to the next */
  readonly spacing: number
  /** seconds from one frame to the next, and of one frame */
  readonly hop: number
  readonly length: number
  /** frame after frame: power */
  readonly power: Float32Array
  /** frame after frame: power of the noise between the tones, as far as one can see it */
  readonly floor: Float32Array
}

const seconds = 0.25
const overlap = 4
/** The noise is looked for so far to either side: further than two strokes' harmonics lie apart. */
const around = 110
/** Of powers of pure noise three tenths lie below this share of their mean: −ln 0.7. */
const threeTenths = -Math.log(0.7)

export function framesOf({ samples, rate }: Sound): Frames {
  const size = 2 ** Math.round(Math.log2(seconds * rate))
  const step = size / overlap
  const count = Math.max(0, Math.floor((samples.length - size) / step) + 1)
  const bins = size / 2 + 1
  const spacing = rate / size
  const power = new Float32Array(count * bins)
  const floor = new Float32Array(count * bins)
  const powers = powersOf(size)
  for (let t = 0; t < count; t++) {
    const at = power.subarray(t * bins, (t + 1) * bins)
    powers(samples, t * step, at)
    writeFloor(at, floor.subarray(t * bins, (t + 1) * bins), Math.round(around / spacing))
  }
  return { count, bins, spacing, hop: step / rate, length: size / rate, power, floor }
}

const blockOf = 32

/** The low quantile of the powers around, made a mean; from block to block in a straight line. */
function writeFloor(power: Float32Array, floor: Float32Array, half: number): void {
  const room = new Float32Array(2 * half + 1)
  const quantile = (centre: number): number => {
    const around = power.subarray(Math.max(1, centre - half), Math.min(power.length, centre + half + 1))
    const near = room.subarray(0, around.length)
    near.set(around)
    near.sort()
    return near[Math.floor(0.3 * near.length)]! / threeTenths + 1e-16
  }
  let left = quantile(0)
  for (let start = 0; start < power.length; start += blockOf) {
    const right = quantile(Math.min(power.length - 1, start + blockOf))
    for (let k = 0; k < blockOf && start + k < power.length; k++)
      floor[start + k] = left + ((right - left) * k) / blockOf
    left = right
  }
}
