/**
 * The rate of made clippers, told by the ear from nothing but their sound; the marks of
 * `npm run listen:figures`, on a small sample of it. What a clipper sounds like: common practice, no source.
 */
import { describe, expect, it } from 'vitest'
import { hear } from '../../server/listening/hear.js'
import { coded } from './coded.js'
import type { Wish } from './recordings.js'
import { madeKinds, recording, tally } from './recordings.js'

const listened = (numbers: readonly number[], wish: Wish, code = false) =>
  tally(
    madeKinds.flatMap((kind) =>
      numbers.map((n) => {
        const made = recording(kind, n, wish)
        const samples = code ? coded(made.samples, made.rate) : made.samples
        const { rate } = hear(samples, made.rate, made.context)
        return { truth: made.tool.perMinute, heard: rate?.perMinute ?? null, of: `${kind} ${n}` }
      }),
    ),
  )

describe('strokes a minute', () => {
  it('are right within 1 % at 10 dB over a shop’s noise, through a room and a phone', () => {
    const got = listened([0, 1], { does: { seconds: 4 } })
    expect(got.wrong).toEqual([])
    expect(got.right).toBeGreaterThanOrEqual(got.of - 1)
  })
  it('are right or not told at 3 dB', () => {
    const got = listened([2], { room: { overNoise: 3 }, rate: 8000, does: { seconds: 5 } })
    expect(got.wrong).toEqual([])
    expect(got.right).toBeGreaterThanOrEqual(got.of - 1)
  })
  it('stay right through a speech codec', () => {
    const got = listened([0], { rate: 16_000, does: { seconds: 3 } }, true)
    expect(got.wrong).toEqual([])
    expect(got.right).toBeGreaterThanOrEqual(got.of - 1)
  })
  it('are the same at every rate of sampling from 8 to 48 kHz', () => {
    for (const rate of [8000, 11_025, 44_100, 48_000]) {
      const made = recording('direct', 5, { rate, does: { seconds: 3 } })
      const { perMinute } = hear(made.samples, rate, made.context).rate!
      expect(Math.abs(perMinute / made.tool.perMinute - 1), String(rate)).toBeLessThan(0.003)
    }
  })
  it('have an uncertainty that holds the truth about 19 times in 20', () => {
    // a clock holds the strokes of a vibrator, so the true rate is known to the last digit
    const off = [10, 11, 12, 13, 14, 15].map((n) => {
      const made = recording('vibrator', n, { rate: 8000, does: { seconds: 3 } })
      const rate = hear(made.samples, made.rate, made.context).rate!
      return Math.abs(rate.perMinute - made.tool.perMinute) / rate.plusMinus
    })
    expect(off.filter((share) => share > 1).length).toBeLessThanOrEqual(1)
    expect(Math.max(...off)).toBeGreaterThan(0.02) // and it is not so wide that it says nothing
  })
})

// Facts of alternating current: a coil pulls twice a cycle, so 60 Hz makes 7200 strokes a minute and 50 Hz makes 6000.
describe('a vibrating clipper', () => {
  it.each([
    [60, 7200],
    [50, 6000],
  ] as const)('on %i Hz strokes %i times a minute, not half and not twice that', (mains, strokes) => {
    for (const n of [20, 21]) {
      const made = recording('vibrator', n, { mains, rate: 8000, does: { seconds: 4 } })
      expect(hear(made.samples, made.rate, made.context).rate!.perMinute).toBeCloseTo(strokes, -2)
    }
  })
  it('on a battery strokes as its board counts, also where that is what a mains would give', () => {
    const made = recording('vibrator', 20, { mains: 60, rate: 8000, does: { seconds: 4 } })
    const { rate } = hear(made.samples, made.rate, { ...made.context, drive: 'board' })
    expect(rate!.perMinute).toBeCloseTo(7200, -2)
  })
  it('with an arm that carries a magnet strokes once a cycle, or is not told', () => {
    for (const n of [0, 1]) {
      const made = recording('magnet-arm', n, { rate: 8000, does: { seconds: 5 } })
      const { rate, silence } = hear(made.samples, made.rate, made.context)
      if (rate) expect(rate.perMinute).toBeCloseTo(60 * made.context.mains, -2)
      else expect(silence).toBe('octave')
    }
  })
})
