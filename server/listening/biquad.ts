/** A filter of the second order. */

/** The Butterworth section by the bilinear transform (Oppenheim and Schafer, Discrete-Time Signal Processing, ch. 7). */
export function biquad(sound: Float32Array, pass: 'low' | 'high', hertz: number, rate: number): Float32Array {
  const k = Math.tan((Math.PI * hertz) / rate)
  const norm = 1 / (1 + Math.SQRT2 * k + k * k)
  const b0 = pass === 'low' ? k * k * norm : norm
  const b1 = pass === 'low' ? 2 * b0 : -2 * b0
  const a1 = 2 * (k * k - 1) * norm
  const a2 = (1 - Math.SQRT2 * k + k * k) * norm
  const out = new Float32Array(sound.length)
  let [x1, x2, y1, y2] = [0, 0, 0, 0]
  // a plain loop: this runs over every sample
  for (let n = 0; n < sound.length; n++) {
    const x = sound[n]!
    const y = b0 * x + b1 * x1 + b0 * x2 - a1 * y1 - a2 * y2
    x2 = x1
    x1 = x
    y2 = y1
    y1 = y
    out[n] = y
  }
  return out
}
