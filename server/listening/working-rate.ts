/** Strokes lie low: what is far above them is left out before anything else, which makes all that follows quick. */

export interface Sound {
  readonly samples: Float32Array
  /** samples a second */
  readonly rate: number
}

/** Keeps what is below 4 kHz: where blows ring. */
const leastRate = 8000
/** Taps for each step of thinning out, on either side. */
const reach = 6

/**
 * Every so many samples one, after a low pass at half the new rate, so that the new rate is the least one or up to twice
 * that.
 *
 * A sinc under a Hann window (Oppenheim and Schafer, Discrete-Time Signal Processing, ch. 4 and 7).
 *
 * @param rate  what is below the least one stays as it is
 * @param least samples a second
 */
export function atWorkingRate(samples: Float32Array, rate: number, least = leastRate): Sound {
  const factor = Math.max(1, Math.floor(rate / least))
  if (factor === 1) return { samples, rate }
  const half = reach * factor
  const taps = Float64Array.from({ length: 2 * half + 1 }, (_, k) => {
    const x = (k - half) / factor
    return (sinc(0.9 * x) * 0.9 * (1 + Math.cos((Math.PI * (k - half)) / (half + 1)))) / (2 * factor)
  })
  // silence before and after, so that the filter always finds samples
  const padded = new Float32Array(samples.length + 2 * half)
  padded.set(samples, half)
  const thinned = new Float32Array(Math.floor(samples.length / factor))
  for (let m = 0; m < thinned.length; m++) {
    const first = m * factor
    const last = first + 2 * half
    let sum = taps[half]! * padded[first + half]!
    // the taps are the same from both ends
    for (let k = 0; k < half; k++) sum += taps[k]! * (padded[first + k]! + padded[last - k]!)
    thinned[m] = sum
  }
  return { samples: thinned, rate: rate / factor }
}

const sinc = (x: number) => (x === 0 ? 1 : Math.sin(Math.PI * x) / (Math.PI * x))
