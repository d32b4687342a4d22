/** Made-up troubles and figures for the laws of the comparison. */
import fc from 'fast-check'
import { Figures } from '../../shared/figures.js'
import type { View } from '../../server/decision/options.js'
import type { Job, MayBe, Trouble } from '../../server/decision/trouble.js'

const amount = fc.integer({ min: 0, max: 40_000 })
const days = fc.integer({ min: 0, max: 40 })

export const anyFigures: fc.Arbitrary<Figures> = fc
  .record({
    minute: fc.integer({ min: 0, max: 300 }),
    fee: fc.tuple(amount, amount),
    inspection: amount,
    carriage: fc.integer({ min: 0, max: 4000 }),
    serviceMends: fc.double({ min: 0.05, max: 1, noNaN: true }),
    away: fc.tuple(days, days),
    hasSpare: fc.boolean(),
    dayWithout: fc.integer({ min: 0, max: 5000 }),
    loanDay: fc.option(fc.integer({ min: 0, max: 3000 })),
    comesBack: fc.double({ min: 0, max: 0.5, noNaN: true }),
    resale: fc.integer({ min: 0, max: 3000 }),
    disposal: fc.integer({ min: 0, max: 1500 }),
    motorFaultsThisYear: fc.integer({ min: 0, max: 2 }),
    inWarranty: fc.boolean(),
    openingVoids: fc.boolean(),
    partDays: days,
    newPrice: amount,
    newDays: days,
    newLife: fc.integer({ min: 1, max: 20 }),
    newUpkeep: fc.integer({ min: 0, max: 8000 }),
    upkeep: fc.integer({ min: 0, max: 8000 }),
    age: fc.option(fc.integer({ min: 0, max: 25 })),
    interest: fc.double({ min: 0, max: 0.3, noNaN: true }),
  })
  .map(({ fee, away, ...rest }) =>
    Figures.parse({
      ...rest,
      feeLow: Math.min(...fee),
      feeHigh: Math.max(...fee),
      daysAwayLow: Math.min(...away),
      daysAwayHigh: Math.max(...away),
    }),
  )

const anyJob: fc.Arbitrary<Job> = fc.record({
  fix: fc.constantFrom('one-fix', 'other-fix'),
  minutes: fc.integer({ min: 0, max: 90 }),
  parts: fc.integer({ min: 0, max: 6000 }),
  needsParts: fc.boolean(),
  opensBody: fc.boolean(),
  chance: fc.double({ min: 0.05, max: 0.98, noNaN: true }),
})

export const anyTrouble: fc.Arbitrary<Trouble> = fc
  .tuple(
    fc.integer({ min: 0, max: 40 }),
    fc.array(
      fc.record({
        causes: fc.constant(['some-cause']),
        weight: fc.integer({ min: 1, max: 100 }),
        tries: fc.array(fc.array(anyJob, { minLength: 1, maxLength: 2 }), { maxLength: 2 }),
        serviceMends: fc.boolean(),
        covered: fc.boolean(),
        renews: fc.double({ min: 0, max: 1, noNaN: true }),
      }),
      { minLength: 1, maxLength: 8 },
    ),
  )
  .map(([asking, mayBe]) => {
    const whole = mayBe.reduce((sum, { weight }) => sum + weight, 0)
    return { asking, mayBe: mayBe.map((it): MayBe => ({ ...it, weight: it.weight / whole })) }
  })

export const anyView: fc.Arbitrary<View> = fc.record({ figures: anyFigures, opened: fc.boolean() })

/** One fault for certain, with one job. */
export const certain = (job: Partial<Job> = {}, asking = 0): Trouble => ({
  asking,
  mayBe: [
    {
      causes: ['some-cause'],
      weight: 1,
      tries: [
        [
          {
            fix: 'one-fix',
            minutes: 10,
            parts: 500,
            needsParts: true,
            opensBody: false,
            chance: 0.9,
            ...job,
          },
        ],
      ],
      serviceMends: true,
      covered: true,
      renews: 0,
    },
  ],
})
