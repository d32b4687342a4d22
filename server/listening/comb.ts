/** The rate that a whole recording repeats at, where its frames alone do not say: teeth and noise drown each of them. */
import { highest, lowest } from './follow.js'
import type { Frames } from './frames.js'

const [slowest, fastest] = [24, 210]
/** Between rates that are tried; the highest harmonic moves by a bin or two. */
const stepBy = 1.004
/** Teeth in between that stand by this share of the others are the comb's own. */
const belongs = 0.25
/** No tone counts for more than this, as e to a power: one loud one is no comb. */
const most = 3

/**
 * Harmonic sum of log powers over the noise (Noll 1969), over all frames together.
 *
 * @returns hertz; NaN without frames
 */
export function combOf(frames: Frames): number {
  const lines = standing(frames)
  /** mean over the teeth, and how many there are; step 2 for the odd ones alone */
  const teeth = (hertz: number, step: 1 | 2 = 1) => {
    let [sum, count] = [0, 0]
    const first = Math.ceil(lowest / hertz)
    for (let h = step === 2 ? first | 1 : first; h * hertz <= highest; h += step, count++)
      sum += lines[Math.round((h * hertz) / frames.spacing)]!
    return { mean: sum / Math.max(1, count), count }
  }
  let best = { hertz: NaN, stands: 0 }
  for (let hertz = slowest; hertz < fastest; hertz *= stepBy) {
    const { mean, count } = teeth(hertz)
    // empty teeth count against a comb, many teeth for it
    const stands = mean * Math.sqrt(count)
    if (stands > best.stands) best = { hertz, stands }
  }
  const half = best.hertz / 2
  return half > slowest && teeth(half, 2).mean > belongs * teeth(best.hertz).mean ? half : best.hertz
}

/** By bin: how far its mean power stands over its mean noise, as a logarithm, less what lies around. */
function standing(frames: Frames): Float64Array {
  const lines = new Float64Array(frames.bins)
  for (let k = 0; k < frames.bins; k++) {
    let power = 0
    let noise = 0
    for (let t = 0; t < frames.count; t++) {
      power += frames.power[t * frames.bins + k]!
      noise += frames.floor[t * frames.bins + k]!
    }
    lines[k] = Math.max(0, Math.min(most, Math.log((power + 1e-16) / (noise + 1e-16))))
  }
  const usual = lines.slice().sort()[lines.length >> 1]!
  return lines.map((it) => it - usual)
}
