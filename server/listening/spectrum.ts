/** Powers of a frame, and where between them a tone lies. The only place that knows the library of the Fourier transform. */
import FFT from 'fft.js'

/**
 * Power of a frame at each multiple of rate / size, from 0 to half the rate.
 *
 * @param size of a frame, a power of two
 * @returns a function that reads `size` samples from a start and writes size / 2 + 1 powers; a full-scale sine in the
 *          middle of a bin gives 1/4 there
 */
export function powersOf(size: number): (samples: Float32Array, start: number, into: Float32Array) => void {
  const transform = new FFT(size)
  const spectrum = transform.createComplexArray() as number[]
  const frame = new Float64Array(size)
  const window = hann(size)
  return (samples, start, into) => {
    for (let n = 0; n < size; n++) frame[n] = (samples[start + n] ?? 0) * window[n]!
    transform.realTransform(spectrum, frame)
    for (let k = 0; k < into.length; k++) into[k] = spectrum[2 * k]! ** 2 + spectrum[2 * k + 1]! ** 2
  }
}

/** Hann's window, scaled so that its samples sum to 1. */
function hann(size: number): Float64Array {
  return Float64Array.from({ length: size }, (_, n) => (1 - Math.cos((2 * Math.PI * n) / size)) / size)
}

/**
 * How far a sine lies from the bin of its highest power, in bins: exact under Hann's window (Grandke, "Interpolation
 * algorithms for discrete Fourier transforms of weighted signals", IEEE Trans. Instrumentation and Measurement, 1983).
 */
export function topOffset(power: Float32Array, k: number): number {
  const side = power[k + 1]! > power[k - 1]! ? 1 : -1
  const ratio = Math.sqrt(power[k + side]! / (power[k]! + 1e-30))
  return side * Math.max(-0.5, Math.min(0.5, (2 * ratio - 1) / (ratio + 1)))
}
