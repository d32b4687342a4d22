/** What a tool does while it is heard: drop-outs, droop, start, drift, a knock; and what is no single tool. */
import { describe, expect, it } from 'vitest'
import { answersTo } from '../../server/listening/answers.js'
import { hear } from '../../server/listening/hear.js'
import { drawsFrom } from '../../server/listening/made/draws.js'
import type { WhatItDoes } from '../../server/listening/made/tool.js'
import { madeKinds, recording } from './recordings.js'

/** Six seconds at the least rate: what a motor does in them is told as well in them as in more. */
const short = (does: Partial<WhatItDoes> = {}) => ({ rate: 8000, does: { seconds: 6, ...does } })
const heardOf = (made: ReturnType<typeof recording>) => hear(made.samples, made.rate, made.context)

describe('drop-outs', () => {
  it('of 60 ms are found where they are, with their rhythm', () => {
    for (const kind of madeKinds) {
      const off = [1, 2.2, 3.4, 4.6].map((from) => ({ from, to: from + 0.06 }))
      const heard = heardOf(recording(kind, 0, short({ off })))
      expect(heard.dropOuts, kind).toHaveLength(4)
      heard.dropOuts.forEach(({ at }, i) => expect(Math.abs(at - off[i]!.from), kind).toBeLessThan(0.2))
      expect(heard.inRhythm, kind).toBe(true)
    }
  })
  it('at odd times have no rhythm', () => {
    const off = [1.2, 1.9, 3.1, 5.2].map((from) => ({ from, to: from + 0.08 }))
    const heard = heardOf(recording('vibrator', 3, short({ off })))
    expect(heard.dropOuts).toHaveLength(4)
    expect(heard.inRhythm).toBe(false)
  })
})

describe('a tool that runs through', () => {
  it('has no drop-outs, no start, no droop, no second rate and holds its note', () => {
    let dropOuts = 0
    for (const kind of madeKinds) {
      const heard = heardOf(recording(kind, 7, short()))
      dropOuts += heard.dropOuts.length
      expect(heard.beat, kind).toBeNull()
      expect(heard.droop, kind).toBeNull()
      expect(heard.startUp, kind).toBeNull()
      expect(Math.abs(heard.drift!.percent), kind).toBeLessThan(8)
    }
    expect(dropOuts).toBeLessThanOrEqual(1)
  })
})

describe('the rate over time', () => {
  it.each([
    ['geared', 0.1],
    ['geared', 0.3],
    ['direct', 0.3],
    ['brushless', 0.1],
  ] as const)('of a %s tool falls in hair by %f, and comes back', (kind, falls) => {
    const made = recording(kind, 2, short({ hair: [{ from: 2, to: 4, falls }] }))
    const { droop, rate } = heardOf(made)
    expect(Math.abs(droop!.percent - 100 * falls)).toBeLessThan(3)
    expect(droop!.recovered).toBe(true)
    expect(Math.abs(rate!.perMinute / made.tool.perMinute - 1)).toBeLessThan(0.01)
  })
  it('of a tired battery is seen to sink', () => {
    for (const kind of ['direct', 'brushless'] as const) {
      const tired = heardOf(recording(kind, 6, short({ drift: -0.004 }))).drift!
      expect(tired.percent).toBeGreaterThan(-30)
      expect(tired.percent).toBeLessThan(-18)
      expect(tired.plusMinus).toBeLessThan(6)
    }
  })
  it('comes up to speed from the switch', () => {
    const made = recording('geared', 3, short({ on: 1 }))
    // a first-order start is within 3 % after 3.5 times its inertia
    expect(Math.abs(heardOf(made).startUp! - 3.5 * made.tool.inertia)).toBeLessThan(0.25)
  })
})

describe('the best part of a minute', () => {
  const asked = [
    { field: 'falls', what: 'falls', atLeast: null },
    { field: 'grows', what: 'grows', atLeast: 1.5 },
    { field: 'fades', what: 'fades', atLeast: 3 },
  ] as const
  const told = (heard: ReturnType<typeof hear>) => Object.fromEntries(answersTo(asked, heard, null))
  const long = (does: Partial<WhatItDoes>, overNoise = 15) => ({
    ...short({ seconds: 32, ...does }),
    room: { overNoise, echo: null },
  })
  it('shows a battery that gives way and a bearing that runs dry', () => {
    const sick = recording('geared', 4, long({ drift: -0.0015, harsher: 0.15 }))
    const { falls, grows } = told(heardOf(sick))
    // 9 percent of its first rate in a minute; the line's percent are of its middle one
    expect(Math.abs(Number(falls) - 9)).toBeLessThan(0.5)
    expect(grows).toBe('yes')
  })
  it('shows a hum that fades; a dryer that starts beside it is no hiss that grows', () => {
    const made = recording('magnet-arm', 5, long({ quieter: 0.1 }, 20))
    const draws = drawsFrom(5)
    for (let n = 17 * made.rate; n < made.samples.length; n++) made.samples[n]! += 0.006 * draws.normal()
    expect(told(heardOf(made))).toEqual({ falls: 0, grows: 'no', fades: 'yes' })
  })
  it('is more than ten seconds: those say nothing of it', () => {
    const { falls, grows, fades } = told(heardOf(recording('direct', 1, short())))
    expect([falls, grows, fades]).toEqual(['cant-tell', 'cant-tell', 'cant-tell'])
  })
})

describe('a second rate', () => {
  it('of a knock at every so many strokes is told', () => {
    let right = 0
    for (const [kind, every] of [
      ['geared', 3],
      ['geared', 5],
      ['direct', 5],
      ['brushless', 3],
    ] as const) {
      const made = recording(kind, 1, {
        ...short(),
        change: (tool) => ({ ...tool, knock: { every, loud: 0.6 } }),
      })
      const { beat } = heardOf(made)
      if (beat !== null && Math.abs((beat * every) / made.tool.perMinute - 1) < 0.05) right++
    }
    expect(right).toBeGreaterThanOrEqual(3)
  })
})

describe('what is no single tool', () => {
  it.each([
    ['direct', 8, 'brushless', 2],
    // a hundredth from each other, and a hundredth and a half from half the other's
    ['geared', 12, 'geared', 112],
    ['geared', 2, 'vibrator', 102],
  ] as const)('%s %i and %s %i, as loud as each other: cannot tell', (kind, n, otherKind, otherN) => {
    const wish = { ...short(), mains: 60 as const, knows: false }
    const [one, other] = [recording(kind, n, wish), recording(otherKind, otherN, wish)]
    const both = one.samples.map((value, k) => value + other.samples[k]!)
    expect(hear(both, 8000, one.context).silence).toBe('two-tools')
  })
  it('a tune: cannot tell', () => {
    const draws = drawsFrom(3)
    const rate = 8000
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
