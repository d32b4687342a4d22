/** What a tool does while it is heard: drop-outs, droop, start, drift, a knock; and what is no single tool. */
import { describe, expect, it } from 'vitest'
import { hear } from '../../server/listening/hear.js'
import { drawsFrom } from '../../server/listening/made/draws.js'
import { madeKinds, recording } from './recordings.js'

const motors = ['geared', 'direct', 'brushless'] as const
const heardOf = (made: ReturnType<typeof recording>) => hear(made.samples, made.rate, made.context)

describe('drop-outs', () => {
  it('of 60 ms are found where they are, with their rhythm', () => {
    for (const kind of madeKinds) {
      const off = [1.5, 3.5, 5.5, 7.5].map((from) => ({ from, to: from + 0.06 }))
      const heard = heardOf(recording(kind, 0, { does: { off } }))
      expect(heard.dropOuts, kind).toHaveLength(4)
      heard.dropOuts.forEach(({ at }, i) => expect(Math.abs(at - off[i]!.from), kind).toBeLessThan(0.2))
      expect(heard.inRhythm, kind).toBe(true)
    }
  })
  it('at odd times have no rhythm', () => {
    const off = [1.2, 1.9, 4.5, 7.6].map((from) => ({ from, to: from + 0.08 }))
    const heard = heardOf(recording('vibrator', 3, { does: { off } }))
    expect(heard.dropOuts).toHaveLength(4)
    expect(heard.inRhythm).toBe(false)
  })
  it('are not heard in a tool that runs through', () => {
    const all = madeKinds.map((kind) => heardOf(recording(kind, 4)).dropOuts.length)
    expect(all.reduce((a, b) => a + b)).toBeLessThanOrEqual(1)
  })
})

describe('the rate over time', () => {
  it('falls in hair by as much as it does, and comes back', () => {
    for (const kind of motors)
      for (const falls of [0.1, 0.3]) {
        const made = recording(kind, 2, { does: { hair: [{ from: 3, to: 6, falls }] } })
        const { droop, rate } = heardOf(made)
        expect(Math.abs(droop!.percent - 100 * falls), `${kind} ${falls}`).toBeLessThan(3)
        expect(droop!.recovered).toBe(true)
        expect(Math.abs(rate!.perMinute / made.tool.perMinute - 1)).toBeLessThan(0.01)
      }
  })
  it('of a tired battery is seen to sink, of a fresh one to stay', () => {
    for (const kind of ['direct', 'brushless'] as const) {
      const tired = heardOf(recording(kind, 6, { does: { drift: -0.004 } })).drift!
      expect(tired.percent).toBeGreaterThan(-30)
      expect(tired.percent).toBeLessThan(-18)
      const fresh = heardOf(recording(kind, 6)).drift!
      expect(Math.abs(fresh.percent)).toBeLessThan(5)
      expect(tired.plusMinus).toBeLessThan(5)
    }
  })
  it('comes up to speed from the switch; a tool that ran already has no start', () => {
    const made = recording('geared', 3, { does: { on: 1 } })
    const { startUp } = heardOf(made)
    // a first-order start is within 3 % after 3.5 times its inertia
    expect(Math.abs(startUp! - 3.5 * made.tool.inertia)).toBeLessThan(0.25)
    expect(heardOf(recording('geared', 3)).startUp).toBeNull()
  })
})

describe('a second rate', () => {
  it('of a knock at every so many strokes is told, and none where nothing knocks', () => {
    let right = 0
    for (const kind of motors)
      for (const every of [3, 5]) {
        const made = recording(kind, 1, { change: (tool) => ({ ...tool, knock: { every, loud: 0.6 } }) })
        const { beat } = heardOf(made)
        if (beat !== null && Math.abs((beat * every) / made.tool.perMinute - 1) < 0.05) right++
      }
    expect(right).toBeGreaterThanOrEqual(5)
    expect(madeKinds.map((kind) => heardOf(recording(kind, 7, { does: { seconds: 5 } })).beat)).toEqual(
      madeKinds.map(() => null),
    )
  })
})

describe('what is no single tool', () => {
  it('two tools as loud as each other: cannot tell', () => {
    const one = recording('direct', 8, { rate: 16_000 })
    const other = recording('brushless', 2, { rate: 16_000 })
    const both = hear(
      one.samples.map((value, n) => value + other.samples[n]!),
      16_000,
      { ...one.context, expected: null },
    )
    expect(both.rate).toBeNull()
    expect(['two-tools', 'no-steady-sound']).toContain(both.silence)
  })
  it('a tune: cannot tell', () => {
    const draws = drawsFrom(3)
    const rate = 16_000
    let note = 110
    const tune = Float32Array.from({ length: 10 * rate }, (_, n) => {
      if (n % (rate / 4) === 0) note = 110 * 2 ** (Math.floor(draws.between(0, 12)) / 12)
      const turn = (2 * Math.PI * note * n) / rate
      return (
        0.1 *
        (Math.sin(turn) + 0.5 * Math.sin(2 * turn) + 0.4 * Math.sin(3 * turn) + 0.2 * Math.sin(5 * turn))
      )
    })
    const heard = hear(tune, rate, { drive: 'motor', mains: 50, between: [2500, 9500], expected: null })
    expect(heard.rate).toBeNull()
  })
})
