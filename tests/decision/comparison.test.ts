import fc from 'fast-check'
import { describe, expect, it } from 'vitest'
import { Figures } from '../../shared/figures.js'
import { figuresInForce } from '../../server/decision/figures-of.js'
import type { Option, View, Way } from '../../server/decision/options.js'
import { capitalRecovery, presentWorthOfYearly } from '../../server/decision/economy/annual.js'
import { totalOf } from '../../server/decision/course.js'
import { adviceOf } from '../../server/decision/advice.js'
import { optionsOf } from '../../server/decision/options.js'
import { dayCost, replacingCost, yearlyOf, yearsLeft } from '../../server/decision/prices.js'
import { settingsFrom } from '../../server/decision/shop-settings.js'
import { spreadsOf } from '../../server/decision/spread.js'
import { anyFigures, anyTrouble, anyView, certain } from './troubles.js'

const view = (figures: Partial<Figures> = {}, opened = false): View => ({
  figures: Figures.parse({ interest: 0, comesBack: 0, ...figures }),
  opened,
})
const way = (name: Way, options: readonly Option[]): Option => options.find((it) => it.way === name)!
const cheapest = (options: readonly Option[]): Way => [...options].sort((a, b) => a.cost - b.cost)[0]!.way

describe('the three ways, by hand', () => {
  // a minute 80; fee 60.00 and carriage 10.00; a new one 120.00, 6 years; 3.82 years left to one of three: 76.37
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
    const left = yearsLeft(view(plain).figures)
    expect(way('replace', options).cost).toBeCloseTo((12_000 * left) / 6, 9)
    expect(way('replace', options).cash).toBe(12_000)
    expect(way('mend-here', options).cost).toBeCloseTo(
      800 + 500 + 0.1 * Math.min(7000, (12_000 * left) / 6),
      9,
    )
    expect(way('mend-here', options).works).toBeCloseTo(0.9, 12)
  })

  it('questions to come are minutes of the bench', () => {
    const [with5, without] = [5, 0].map((asking) =>
      way('mend-here', optionsOf(certain({}, asking), view(plain))),
    )
    expect(with5!.cost - without!.cost).toBeCloseTo(5 * 80, 9)
  })

  it('what no service can fix costs inspection, carriage and a new one', () => {
    const trouble = { asking: 0, mayBe: [{ ...certain().mayBe[0]!, serviceMends: false }] }
    const fresh = replacingCost(view(plain).figures)
    expect(way('send-in', optionsOf(trouble, view(plain))).cost).toBeCloseTo(1500 + 1000 + fresh, 9)
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

  it('common practice, no source: in mid-life a repair is worth about half of a new one, a little more as some last', () => {
    expect(replacingCost(view(plain).figures) / 12_000).toBeGreaterThan(0.5)
    expect(replacingCost(view(plain).figures) / 12_000).toBeLessThan(0.65)
  })

  it('in warranty a wear part is paid in full: what a warranty covers is a question of the part', () => {
    const warranty = view({ ...plain, inWarranty: true })
    const worn = { asking: 0, mayBe: [{ ...certain().mayBe[0]!, covered: false }] }
    expect(way('send-in', optionsOf(worn, warranty)).cost).toBe(7000)
    expect(way('send-in', optionsOf(certain(), warranty)).cost).toBe(1000)
  })

  it('what comes back with the same fault goes once more, for carriage and days', () => {
    const again = view({ ...plain, comesBack: 0.1, dayWithout: 100, daysAwayLow: 5, daysAwayHigh: 5 })
    expect(way('send-in', optionsOf(certain(), again)).cost).toBeCloseTo(6000 + 1.1 * (1000 + 500), 9)
  })

  it('a second try follows the first where it pays, and counts where the first fails', () => {
    const [first] = certain({ minutes: 3, parts: 0, needsParts: false, chance: 0.35 }).mayBe[0]!.tries
    const [second] = certain({ minutes: 10, parts: 900, chance: 0.9 }).mayBe[0]!.tries
    const trouble = { asking: 0, mayBe: [{ ...certain().mayBe[0]!, tries: [first!, second!] }] }
    const here = way('mend-here', optionsOf(trouble, view(plain)))
    expect(here.works).toBeCloseTo(1 - 0.65 * 0.1, 12)
    expect(here.cost).toBeCloseTo(240 + 0.65 * (800 + 900 + 0.1 * 7000), 9)
  })

  it('a new battery gives back some of the life: then replacing costs more, set against it', () => {
    const figures = view({ ...plain, age: 5 }).figures
    const left = yearsLeft(figures)
    expect(replacingCost(figures)).toBeCloseTo((12_000 * left) / 6, 9)
    expect(replacingCost(figures, 0.5)).toBeCloseTo((12_000 * (left + 6)) / 12, 9)
  })

  it('a loan caps what a day costs; what the old one brings comes off the new one', () => {
    expect(dayCost(view({ dayWithout: 900, loanDay: 300 }).figures)).toBe(300)
    expect(dayCost(view({ dayWithout: 200, loanDay: 300 }).figures)).toBe(200)
    const base = replacingCost(view(plain).figures)
    expect(replacingCost(view({ ...plain, resale: 1000, disposal: 200 }).figures)).toBeCloseTo(base - 800, 9)
  })

  it('at six years of six the program’s own Weibull leaves 2.18 years, and worn brushes are worth fitting', () => {
    const figures = view({ ...plain, age: 6 }).figures
    expect(yearsLeft(figures)).toBeCloseTo(2.179, 3)
    expect(cheapest(optionsOf(certain({ minutes: 12, parts: 800 }), { figures, opened: false }))).toBe(
      'mend-here',
    )
  })
})

describe('laws of the comparison', () => {
  it('what an option is made of sums to its cost, and chances are chances', () => {
    fc.assert(
      fc.property(anyTrouble, anyView, (trouble, at) => {
        for (const { cost, makeup, works, days } of optionsOf(trouble, at)) {
          expect(totalOf(makeup)).toBeCloseTo(cost, 6)
          const { teaching, ...rest } = makeup
          expect(teaching).toBeLessThanOrEqual(0)
          expect(Math.min(...Object.values(rest))).toBeGreaterThanOrEqual(-1e-9)
          expect(works).toBeGreaterThanOrEqual(-1e-9)
          expect(works).toBeLessThanOrEqual(1 + 1e-9)
          expect(days).toBeGreaterThanOrEqual(0)
        }
      }),
    )
  })

  it('fixing here costs at most what ending costs, the questions apart', () => {
    fc.assert(
      fc.property(anyTrouble, anyView, (trouble, at) => {
        const options = optionsOf({ ...trouble, asking: 0 }, at)
        const ends = Math.min(way('send-in', options).cost, way('replace', options).cost)
        expect(way('mend-here', options).cost).toBeLessThanOrEqual(ends + 1e-6)
      }),
    )
  })

  it('a more expensive fee never makes sending in more attractive', () => {
    fc.assert(
      fc.property(anyTrouble, anyView, fc.integer({ min: 1, max: 20_000 }), (trouble, at, more) => {
        const { feeLow, feeHigh } = at.figures
        const dearer = { ...at, figures: { ...at.figures, feeLow: feeLow + more, feeHigh: feeHigh + more } }
        const [before, after] = [optionsOf(trouble, at), optionsOf(trouble, dearer)]
        const ahead = (options: readonly Option[], other: Way): number =>
          way('send-in', options).cost - way(other, options).cost
        for (const other of ['mend-here', 'replace'] as const)
          expect(ahead(after, other)).toBeGreaterThanOrEqual(ahead(before, other) - 1e-6)
        if (cheapest(before) !== 'send-in') expect(cheapest(after)).not.toBe('send-in')
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

  it('the order of the ways is the same in all and by the year', () => {
    fc.assert(
      fc.property(anyTrouble, anyView, (trouble, at) => {
        const options = optionsOf(trouble, at)
        const by = (of: (it: Option) => number) =>
          [...options].sort((a, b) => of(a) - of(b) || a.cost - b.cost).map((it) => it.way)
        expect(by(({ yearly }) => yearly)).toEqual(by(({ cost }) => cost))
      }),
    )
  })

  it('over the years that are left, a new one at R costs what its price costs over its own life', () => {
    fc.assert(
      fc.property(anyFigures, (told) => {
        const figures = { ...told, newDays: 0, resale: 0, disposal: 0 }
        const yearly =
          figures.newPrice * capitalRecovery(figures.interest, figures.newLife) + figures.newUpkeep
        fc.pre(yearly > figures.upkeep)
        expect(yearlyOf(figures, replacingCost(figures))).toBeCloseTo(yearly, 4)
        expect(presentWorthOfYearly(figures.interest, yearsLeft(figures))).toBeGreaterThan(0)
      }),
    )
  })

  it('an older tool never makes fixing likelier: replacing it only grows cheaper', () => {
    fc.assert(
      fc.property(anyTrouble, anyView, fc.double({ min: 0.1, max: 20, noNaN: true }), (trouble, at, more) => {
        const age = at.figures.age ?? at.figures.newLife / 2
        const older = { ...at, figures: { ...at.figures, age: age + more } }
        const ahead = (view: View): number => {
          const options = optionsOf(trouble, view)
          return way('mend-here', options).cost - way('replace', options).cost
        }
        expect(ahead(older)).toBeGreaterThanOrEqual(ahead(at) - 1e-6)
      }),
    )
  })

  it('a closed way is never advised, nor does fixing here end in it', () => {
    const anyClosed = fc.subarray(['mend-here', 'send-in'] as const)
    fc.assert(
      fc.property(anyTrouble, anyView, anyClosed, (trouble, at, shut) => {
        const rule = { id: 'shut', bars: [...shut] } as never
        const barred = new Map(shut.map((one) => [one, rule] as const))
        const closed = new Set<Way>(shut)
        const options = optionsOf(trouble, { ...at, closed })
        const { option } = adviceOf({ options, verdicts: [], barred }, trouble.mayBe, at, {
          step: 'ask',
          minutes: 1,
          worthMinutes: null,
        })
        expect(closed.has(option.way)).toBe(false)
        if (closed.has('send-in')) expect(way('mend-here', options).makeup.fee).toBe(0)
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

  it('has the mean that the option has', () => {
    // with one fault, a sure fix and a quote, all outcomes are one
    const at = view({ feeLow: 6000, feeHigh: 6000, daysAwayLow: 7, daysAwayHigh: 7, serviceMends: 1 })
    const { low, high } = spreadsOf(certain({ chance: 1 }), at)['mend-here']
    expect([low, high]).toEqual([1300, 1300])
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
