/** Signals whose answer can be written down. */
import { describe, expect, it } from 'vitest'
import { hear } from '../../server/listening/hear.js'
import type { Context } from '../../server/listening/heard.js'
import { drawsFrom } from '../../server/listening/made/draws.js'
import { follow } from '../../server/listening/follow.js'
import { framesOf } from '../../server/listening/frames.js'
import { powersOf } from '../../server/listening/spectrum.js'
import { atWorkingRate } from '../../server/listening/working-rate.js'

const sine = (hertz: number, rate: number, seconds: number, loud = 1) =>
  Float32Array.from({ length: rate * seconds }, (_, n) => loud * Math.sin((2 * Math.PI * hertz * n) / rate))
const power = (sound: Float32Array) => sound.reduce((sum, x) => sum + x * x, 0) / sound.length
const context: Context = { drive: 'motor', mains: 50, between: [2500, 9500], expected: null }

describe('the spectrum', () => {
  it('has a quarter of a sine’s squared amplitude in its bin, half as much amplitude on either side', () => {
    // Hann's window in closed form (Harris, "On the use of windows for harmonic analysis with the DFT", 1978, sect. V)
    const powers = new Float32Array(513)
    powersOf(1024)(sine(1000, 8000, 1), 0, powers)
    expect(powers[128]).toBeCloseTo(0.25, 5)
    expect(powers[127]).toBeCloseTo(0.0625, 5)
    expect(powers[129]).toBeCloseTo(0.0625, 5)
    expect(powers[140]).toBeLessThan(1e-9)
  })
})

describe('thinning out', () => {
  it('leaves what lies low as it is, and lets nothing high fold down onto it', () => {
    for (const rate of [16_000, 44_100, 48_000, 96_000]) {
      const low = atWorkingRate(sine(500, rate, 1), rate)
      expect(power(low.samples.subarray(200, -200)), String(rate)).toBeCloseTo(0.5, 2)
      const high = atWorkingRate(sine(low.rate * 0.9, rate, 1), rate)
      expect(power(high.samples.subarray(200, -200)), String(rate)).toBeLessThan(1e-4)
    }
  })
})

describe('the error of a pitch', () => {
  /**
   * Cramér–Rao bound of the fundamental of L harmonics with amplitudes A in white noise of variance s², from N samples
   * at rate r: variance of the hertz ≥ 24 s² r² / (4π² N³ Σ A² l²) (Christensen and Jakobsson, Multi-Pitch Estimation,
   * 2009, ch. 1, for real signals; with L = 1 it is Kay's bound of a sine).
   */
  it('is close to the least that any method can have', () => {
    const [rate, hertz, harmonics, deviation] = [8000, 90, 10, 1.5]
    const squares = Array.from({ length: harmonics }, (_, l) => (l + 1) ** 2).reduce((a, b) => a + b)
    const errors = [1, 2, 3, 4].flatMap((seed) => {
      const draws = drawsFrom(seed)
      const phases = Array.from({ length: harmonics }, () => 7 * draws.unit())
      const sound = Float32Array.from(
        { length: 4 * rate },
        (_, n) =>
          phases.reduce((sum, p, l) => sum + Math.sin(p + (2 * Math.PI * hertz * (l + 1) * n) / rate), 0) +
          deviation * draws.normal(),
      )
      const heard = { samples: sound, rate }
      const found = follow(heard, framesOf(heard))
      return [...found.hertz].filter((_, t) => t % 4 === 0).map((value) => value - hertz)
    })
    const size = 2048
    const least = Math.sqrt((24 * deviation ** 2 * rate ** 2) / (4 * Math.PI ** 2 * size ** 3 * squares))
    const spread = Math.sqrt(errors.reduce((sum, e) => sum + e * e, 0) / errors.length)
    // Hann's window and looking at two bins of each harmonic, not all samples, cost a factor of about three
    expect(spread / least).toBeGreaterThan(0.9)
    expect(spread / least).toBeLessThan(4)
  })
})

// Facts of alternating current: iron hums at twice the mains frequency, 100 Hz on 50 Hz mains and 120 Hz on 60.
describe('hum', () => {
  it.each([50, 60] as const)('of %i Hz mains is no stroke', (mains) => {
    const draws = drawsFrom(mains)
    const hum = Float32Array.from({ length: 80_000 }, (_, n) => {
      const turn = (4 * Math.PI * mains * n) / 8000
      const tones = Math.sin(turn) + 0.4 * Math.sin(2 * turn + 1) + 0.15 * Math.sin(3 * turn)
      return 0.05 * tones + 0.003 * draws.normal()
    })
    for (const drive of ['mains', 'motor'] as const)
      expect(hear(hum, 8000, { ...context, drive, mains }).silence).toBe('only-hum')
  })
})

describe('a rich hum', () => {
  it.each([50, 60] as const)('of a stuck motor on %i Hz mains that stray a little is no stroke', (mains) => {
    const draws = drawsFrom(mains)
    const buzz = Float32Array.from({ length: 40_000 }, (_, n) => {
      const turn = (4 * Math.PI * mains * 1.0008 * n) / 8000
      const tones = Array.from({ length: 11 }, (_, h) => Math.sin((h + 1) * turn + h * h) / (h + 1))
      return 0.02 * tones.reduce((a, b) => a + b) + 0.005 * draws.normal()
    })
    expect(hear(buzz, 8000, { ...context, mains }).silence).toBe('only-hum')
  })
})

describe('what carries no answer', () => {
  const draws = drawsFrom(1)
  const noise = Float32Array.from({ length: 80_000 }, () => 0.1 * draws.normal())
  it.each([
    ['silence', new Float32Array(80_000), 'too-quiet'],
    ['a second of sound', noise.subarray(0, 8000), 'too-short'],
    ['noise', noise, 'no-steady-sound'],
    [
      'a microphone at its stop',
      sine(90, 8000, 10).map((x) => Math.max(-1, Math.min(1, 20 * x))),
      'overdriven',
    ],
  ])('%s: cannot tell', (_, sound, why) => {
    const heard = hear(sound, 8000, context)
    expect(heard.rate).toBeNull()
    expect(heard.silence).toBe(why)
  })
  it('a rate of sampling that no microphone has is refused with the rates that are taken', () => {
    expect(() => hear(noise, 4000, context)).toThrow(/8000 to 192000/)
    expect(() => hear(noise, NaN, context)).toThrow(RangeError)
  })
})
