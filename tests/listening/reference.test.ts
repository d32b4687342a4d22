/**
 * Against an independent method on an independent library: one spectrum of the whole recording (the package
 * fourier-transform, not the one that the ear uses), and the rate whose multiples hold most of it, found by trying every
 * rate (Noll's harmonic sum, 1969). It knows no frames and no pitch finder.
 */
import rfft from 'fourier-transform'
import { describe, expect, it } from 'vitest'
import { hear } from '../../server/listening/hear.js'
import { madeKinds, recording } from './recordings.js'

/** Hertz within a part in a hundred of a guess whose multiples below 1500 Hz hold most of the sound. */
function bestNear(guess: number, samples: Float32Array, rate: number): number {
  const size = 2 ** Math.floor(Math.log2(samples.length))
  const windowed = Float64Array.from(
    { length: size },
    (_, n) => samples[n]! * (1 - Math.cos((2 * Math.PI * n) / size)),
  )
  const lines = rfft(windowed).slice()
  let best = { hertz: 0, sum: 0 }
  for (let hertz = 0.97 * guess; hertz < 1.03 * guess; hertz += 0.01) {
    let sum = 0
    for (let h = 1; h * hertz < 1500; h++) sum += lines[Math.round((h * hertz * size) / rate)]!
    if (sum > best.sum) best = { hertz, sum }
  }
  return best.hertz
}

describe('a whole spectrum', () => {
  it('puts the strokes of a mains-driven tool where the ear hears them, to a part in two thousand', () => {
    for (const kind of madeKinds.slice(0, 2)) {
      const made = recording(kind, 0, { rate: 8000, does: { seconds: 9 } })
      const { rate } = hear(made.samples, made.rate, made.context)
      const found = 60 * bestNear(made.tool.perMinute / 60, made.samples, made.rate)
      expect(Math.abs(rate!.perMinute / found - 1), kind).toBeLessThan(5e-4)
    }
  })
  it('puts those of a motor, which wanders, within three parts in a thousand', () => {
    for (const kind of madeKinds.slice(2)) {
      const made = recording(kind, 0, { rate: 8000, does: { seconds: 9 } })
      const { rate } = hear(made.samples, made.rate, made.context)
      const found = 60 * bestNear(made.tool.perMinute / 60, made.samples, made.rate)
      expect(Math.abs(rate!.perMinute / found - 1), kind).toBeLessThan(3e-3)
    }
  })
})
