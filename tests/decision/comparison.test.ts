import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { Figures } from '../../shared/figures.js'
import { dials, flipsOf, type Turned } from '../../server/decision/break-even.js'
import { figuresInForce } from '../../server/decision/figures-of.js'
import type { Option, View, Way } from '../../server/decision/options.js'
import { cheapest, optionsOf, totalOf } from '../../server/decision/options.js'
import { replacingCost, yearlyIfMended, yearlyIfReplaced, yearsLeft } from '../../server/decision/prices.js'
import { settingsFrom } from '../../server/decision/shop-settings.js'
import { numbersFrom, spreadsOf } from '../../server/decision/spread.js'
import { anyFigures, anyTrouble, anyView, certain } from './troubles.js'

const view = (figures: Partial<Figures> = {}, opened = false): View => ({
  figures: Figures.parse({ interest: 0, ...figures }),
  opened,
})
const way = (name: Way, options: readonly Option[]): Option => options.find((it) => it.way === name)!
const all = (): boolean => true

describe('the three ways, by hand', () => {
  // a minute 80; fee 60.00 and carriage 10.00; a new one 120.00, 6 years, in the middle of its life: 60.00
  const plain = {
    feeLow: 6000,
    feeHigh: 6000,
    carriage: 1000,
    inspection: 1500,
    serviceMends: 1,
    newPrice: 12_000,
    newDays: 0,
    newUpkeep: 0,
    upkeep: 0,
  }
  it('one sure fault: 10 minutes and a part of 5.00 at 9 in 10, else the cheaper end', () => {
    const options = optionsOf(certain(), view(plain))
    expect(way('send-in', options).cost).toBe(7000)
    expect(way('replace', options).cost).toBeCloseTo(6000, 9)
    expect(way('mend-here', options).cost).toBeCloseTo(800 + 500 + 0.1 * 6000, 9)
    expect(way('mend-here', options).asMeant).toBeCloseTo(0.9, 12)
  })

  it('questions to come are minutes of the bench', () => {
    const [with5, without] = [5, 0].map((asking) =>
      way('mend-here', optionsOf(certain({}, asking), view(plain))),
    )
    expect(with5!.cost - without!.cost).toBeCloseTo(5 * 80, 9)
  })

  it('what no service can mend costs inspection, carriage and a new one', () => {
    const trouble = { asking: 0, mayBe: [{ ...certain().mayBe[0]!, serviceMends: false }] }
    expect(way('send-in', optionsOf(trouble, view(plain))).cost).toBeCloseTo(1500 + 1000 + 6000, 9)
  })

  it('in warranty the service asks for carriage alone, unless the body was opened', () => {
    const warranty = { ...plain, inWarranty: true }
    expect(way('send-in', optionsOf(certain(), view(warranty))).cost).toBe(1000)
    expect(way('send-in', optionsOf(certain(), view(warranty, true))).cost).toBe(7000)
    expect(way('send-in', optionsOf(certain(), view({ ...warranty, openingVoids: false }, true))).cost).toBe(
      1000,
    )
  })

  it('days away and days for a part are paid at the cost of a day; a spare saves them', () => {
    const waiting = { ...plain, dayWithout: 300, daysAwayLow: 4, daysAwayHigh: 6, partDays: 2 }
    const [alone, spared] = [false, true].map((hasSpare) =>
      optionsOf(certain({ chance: 0.5 }), view({ ...waiting, hasSpare })),
    )
    expect(way('send-in', alone!).cost).toBe(7000 + 1500)
    expect(way('send-in', spared!).cost).toBe(7000)
    expect(way('mend-here', alone!).makeup.waiting).toBe(600)
    expect(way('mend-here', spared!).makeup.waiting).toBe(0)
    expect(way('mend-here', alone!).days).toBe(2)
  })

  it('common practice, no source: in mid-life a repair is worth about half of a new one', () => {
    expect(replacingCost(view(plain).figures)).toBeCloseTo(12_000 / 2, 9)
    const withInterest = replacingCost(view({ ...plain, interest: 0.05 }).figures) / 12_000
    expect(withInterest).toBeGreaterThan(0.45)
    expect(withInterest).toBeLessThan(0.6)
  })

  it('repair or replace, the worked example at 10 %: replacing wins, and the sums a year are those of the book', () => {
    // two years left of a tool at 40 a year, against 300 for five years at 10 a year (no salvage here)
    const figures = Figures.parse({
      interest: 0.1,
      newPrice: 300,
      newLife: 5,
      newUpkeep: 10,
      newDays: 0,
      age: 3,
      upkeep: 40,
    })
    expect(yearlyIfMended(figures, 120)).toBeCloseTo(109.1429, 4)
    // 300 · 0.26380 + 10
    expect(yearlyIfReplaced(figures)).toBeCloseTo(89.139, 3)
    expect(replacingCost(figures)).toBeLessThan(120)
  })
})

describe('laws of the comparison', () => {
  it('what an option is made of sums to its cost, and chances are chances', () => {
    fc.assert(
      fc.property(anyTrouble, anyView, (trouble, at) => {
        for (const { cost, makeup, asMeant, days } of optionsOf(trouble, at)) {
          expect(totalOf(makeup)).toBeCloseTo(cost, 6)
          expect(
            Math.min(...Object.values(makeup as unknown as Record<string, number>)),
          ).toBeGreaterThanOrEqual(0)
          expect(asMeant).toBeGreaterThanOrEqual(-1e-9)
          expect(asMeant).toBeLessThanOrEqual(1 + 1e-9)
          expect(days).toBeGreaterThanOrEqual(0)
        }
      }),
    )
  })

  it('mending here costs at most what ending costs, the questions apart', () => {
    fc.assert(
      fc.property(anyTrouble, anyView, (trouble, at) => {
        const options = optionsOf({ ...trouble, asking: 0 }, at)
        const ends = Math.min(way('send-in', options).cost, way('replace', options).cost)
        expect(way('mend-here', options).cost).toBeLessThanOrEqual(ends + 1e-6)
      }),
    )
  })

  it('a dearer fee never makes sending in more attractive', () => {
    fc.assert(
      fc.property(anyTrouble, anyView, fc.integer({ min: 1, max: 20_000 }), (trouble, at, more) => {
        const { feeLow, feeHigh } = at.figures
        const dearer = { ...at, figures: { ...at.figures, feeLow: feeLow + more, feeHigh: feeHigh + more } }
        const [before, after] = [optionsOf(trouble, at), optionsOf(trouble, dearer)]
        const ahead = (options: readonly Option[], other: Way): number =>
          way('send-in', options).cost - way(other, options).cost
        for (const other of ['mend-here', 'replace'] as const)
          expect(ahead(after, other)).toBeGreaterThanOrEqual(ahead(before, other) - 1e-6)
        if (cheapest(before)!.way !== 'send-in') expect(cheapest(after)!.way).not.toBe('send-in')
      }),
    )
  })

  it('a spare never raises the cost of waiting, nor any cost', () => {
    fc.assert(
      fc.property(anyTrouble, anyView, (trouble, at) => {
        const [alone, spared] = [false, true].map((hasSpare) =>
          optionsOf(trouble, { ...at, figures: { ...at.figures, hasSpare } }),
        )
        alone!.forEach((option, k) => {
          expect(spared![k]!.cost).toBeLessThanOrEqual(option.cost + 1e-6)
          expect(spared![k]!.makeup.waiting).toBe(0)
        })
      }),
    )
  })

  it('replacing and mending cost the same a year exactly where they cost the same now', () => {
    fc.assert(
      fc.property(anyFigures, (figures) => {
        const waits = figures.newDays * (figures.hasSpare ? 0 : figures.dayWithout)
        const worth = replacingCost(figures) - waits
        fc.pre(worth > 0)
        const without = { ...figures, newDays: 0 }
        expect(yearlyIfMended(without, worth)).toBeCloseTo(yearlyIfReplaced(without), 4)
        expect(yearsLeft(figures)).toBeGreaterThan(0)
      }),
    )
  })

  it('the plan pays at every step what the comparison says', () => {
    fc.assert(
      fc.property(anyFigures, fc.boolean(), (figures, opened) => {
        const shop = settingsFrom(figures, { code: 'EUR', digits: 2 }, opened)
        const trouble = certain()
        const sent = way('send-in', optionsOf(trouble, { figures, opened })).cost / 100
        const inVain = (shop.sendInVain ?? shop.sendIn) + shop.replace
        const planned =
          shop.turnaroundDays * shop.dayWithout +
          shop.serviceMends * shop.sendIn +
          (1 - shop.serviceMends) * inVain
        expect(planned).toBeCloseTo(sent, 6)
      }),
    )
  })
})

describe('break-even values', () => {
  it('by hand: sending in wins below what mending costs', () => {
    const at = view({
      feeLow: 6000,
      feeHigh: 6000,
      carriage: 0,
      serviceMends: 1,
      newPrice: 90_000,
      newDays: 0,
      daysAwayLow: 0,
      daysAwayHigh: 0,
    })
    // mending: 60 minutes at 0.80 and a part of 5.00, and a tenth of the end
    const flip = flipsOf(certain({ minutes: 60 }), at, all).find(({ figure }) => figure === 'fee')!
    // fee x: x < 5300 + 0.1 x, so the first whole fee under 5888.9 from above
    expect(flip).toMatchObject({ now: 6000, at: 5888, to: 'send-in' })
  })

  it('really flip the choice, and the step before does not', () => {
    fc.assert(
      fc.property(anyTrouble, anyView, (trouble, at) => {
        const best = (figures: Figures) => cheapest(optionsOf(trouble, { ...at, figures }))!.way
        const before = best(at.figures)
        for (const flip of flipsOf(trouble, at, all)) {
          const dial = dials[flip.figure as Turned]!
          expect(best(dial.turn(at.figures, flip.at))).toBe(flip.to)
          expect(flip.to).not.toBe(before)
          const nearer = flip.at > flip.now ? flip.at - dial.step : flip.at + dial.step
          expect(best(dial.turn(at.figures, nearer))).toBe(before)
        }
      }),
      { numRuns: 60 },
    )
  })

  it('come closest first, and leave out ways that are barred', () => {
    fc.assert(
      fc.property(anyTrouble, anyView, (trouble, at) => {
        const flips = flipsOf(trouble, at, (name) => name !== 'replace')
        expect(flips.map(({ distance }) => distance)).toEqual(
          flips.map(({ distance }) => distance).sort((a, b) => a - b),
        )
        expect(flips.every(({ to }) => to !== 'replace')).toBe(true)
      }),
      { numRuns: 40 },
    )
  })
})

describe('the spread', () => {
  it('by hand: nine in ten pay the job, one in ten the job and the service', () => {
    const at = view({
      feeLow: 6000,
      feeHigh: 6000,
      daysAwayLow: 7,
      daysAwayHigh: 7,
      newPrice: 90_000,
      serviceMends: 1,
      carriage: 0,
    })
    const job = { minutes: 10, parts: 500 }
    expect(spreadsOf(certain({ ...job, chance: 0.95 }), at)['mend-here']).toEqual({
      low: 1300,
      middle: 1300,
      high: 1300,
      exact: true,
    })
    expect(spreadsOf(certain({ ...job, chance: 0.85 }), at)['mend-here']).toMatchObject({
      low: 1300,
      high: 7300,
    })
  })

  it('is the same whenever it is drawn, in order, and within what can happen', () => {
    fc.assert(
      fc.property(anyTrouble, anyView, (trouble, at) => {
        const spreads = spreadsOf(trouble, at)
        expect(spreadsOf(trouble, at)).toEqual(spreads)
        for (const { low, middle, high } of Object.values(spreads)) {
          expect(low).toBeLessThanOrEqual(middle)
          expect(middle).toBeLessThanOrEqual(high)
        }
      }),
      { numRuns: 30 },
    )
  })

  it('drawn agrees with weighed: a range of almost nothing', () => {
    fc.assert(
      fc.property(anyTrouble, anyView, (trouble, at) => {
        const quoted = { ...at.figures, feeHigh: at.figures.feeLow, daysAwayHigh: at.figures.daysAwayLow }
        const exact = spreadsOf(trouble, { ...at, figures: quoted })
        const almost = spreadsOf(trouble, { ...at, figures: { ...quoted, feeHigh: quoted.feeLow + 1e-9 } })
        // where a share ends within a point of a tenth, the draw may fall on the other side of the step
        const wide = (name: Way) => Math.max(1, exact[name].high - exact[name].low)
        for (const name of ['send-in', 'mend-here'] as const)
          expect(Math.abs(almost[name].middle - exact[name].middle)).toBeLessThanOrEqual(wide(name) + 1e-6)
      }),
      { numRuns: 30 },
    )
  })

  it('is drawn by the minimal standard generator: its 10000th number (ISO/IEC 14882)', () => {
    const next = numbersFrom(1)
    let last = 0
    for (let k = 0; k < 10_000; k++) last = next()
    expect(Math.round(last * 2_147_483_647)).toBe(1_043_618_065)
  })
})

describe('whose word a figure is', () => {
  it('the case before the tool, the tool before the shop, the shop before the usual', () => {
    const { figures, from } = figuresInForce({
      shop: { minute: 50, carriage: 700, newPrice: 1 },
      tool: { newPrice: 2, age: 3 },
      case: { newPrice: 3 },
    })
    expect(figures).toMatchObject({ minute: 50, carriage: 700, newPrice: 3, age: 3 })
    expect(from).toMatchObject({ minute: 'shop', newPrice: 'case', age: 'tool', inspection: 'usual' })
  })
  it('turns a range round that is upside down', () => {
    const { figures } = figuresInForce({ shop: { feeLow: 900, feeHigh: 100 } })
    expect(figures).toMatchObject({ feeLow: 100, feeHigh: 900 })
  })
  it('an age said to be unknown in the case hides the shop’s', () => {
    expect(figuresInForce({ shop: { age: 4 }, case: { age: null } }).figures.age).toBeNull()
  })
})
