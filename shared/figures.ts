/**
 * The figures that decide whether a tool is worth mending. Amounts are integers in the minor unit of the shop's
 * currency (cents, pence), as they are entered and shown; what is expected of them is reckoned in real numbers and
 * rounded once, when it is shown.
 */
import { z } from 'zod'
import { Id } from './ids.js'
import { Skill } from './rule-fields.js'
import { someOf } from './some-of.js'

/** ISO 4217: three capital letters, and how many digits its minor unit has (0 for yen, 2 for most, 3 for dinars). */
export const Currency = z.strictObject({
  code: z.string().regex(/^[A-Z]{3}$/, 'is a code of three capital letters, such as EUR'),
  digits: z.number().int().min(0).max(3),
})
export type Currency = z.infer<typeof Currency>

/** A sum of money in minor units. */
export const Amount = z.number().int().min(0).max(100_000_000)
const Days = z.number().min(0).max(365)
const Years = z.number().min(0.25).max(60)

/** Each field with what it is, in the words of a page; defaults are workshop estimates, no source. */
export const Figures = z.strictObject({
  minute: Amount.default(80).describe('a minute at the bench'),
  skill: Skill.default('S2').describe('who works at the bench'),
  canSafetyTest: z.boolean().default(false).describe('may and can somebody here test electrical safety?'),

  feeLow: Amount.default(4500).describe('fee of a service, at the least'),
  feeHigh: Amount.default(7500).describe('fee of a service, at the most; the same where it is a quote'),
  inspection: Amount.default(1500).describe('what a service asks when it looks and cannot mend'),
  carriage: Amount.default(1000).describe('carriage there and back'),
  serviceMends: z
    .number()
    .min(0.05)
    .max(1)
    .default(0.95)
    .describe('share of what a service takes on that comes back mended'),
  daysAwayLow: Days.default(5).describe('days away, at the least'),
  daysAwayHigh: Days.default(12).describe('days away, at the most'),

  hasSpare: z.boolean().default(false).describe('does a spare stand in while it is away?'),
  comesBack: z
    .number()
    .min(0)
    .max(1)
    .default(0.05)
    .describe('share of what a service has fixed that soon goes back once more with the same fault'),
  dayWithout: Amount.default(0).describe('what a day without the tool costs where no spare stands in'),
  loanDay: Amount.nullable()
    .default(null)
    .describe('what a tool on loan costs a day; null where none is to be had'),
  teaches: Amount.default(0).describe('what it is worth to the shop that somebody learns by fixing it here'),

  inWarranty: z.boolean().default(false),
  openingVoids: z.boolean().default(true).describe('does opening the body end the warranty?'),

  partsToBeHad: z.boolean().default(true).describe('can its parts still be bought?'),
  partDays: Days.default(0).describe('days until a part is here; 0 from the shelf'),

  newPrice: Amount.default(16_000).describe('price of a new one of the same class'),
  newDays: Days.default(2).describe('days until a new one is here'),
  newLife: Years.default(6).describe('years that a new one is expected to serve'),
  resale: Amount.default(0).describe('what the old one brings when it is replaced'),
  disposal: Amount.default(0).describe('what it costs to be rid of the old one'),
  newUpkeep: Amount.default(3000).describe('what a new one costs a year: blades, oil, parts'),

  age: z
    .number()
    .min(0)
    .max(60)
    .nullable()
    .default(null)
    .describe('years that this one has served; unknown: half its life'),
  upkeep: Amount.default(3000).describe('what this one costs a year once it runs: blades, oil, parts'),
  spentByYear: z
    .array(Amount)
    .max(40)
    .default([])
    .describe('what it has cost in its first year, second year and so on, where somebody kept a record'),
  motorFaultsThisYear: z.number().int().min(0).max(20).default(0),

  limitSet: Id.nullable()
    .default(null)
    .describe('the set of test limits that the shop goes by, of rules/limits; none is assumed'),

  mains: z.enum(['50', '60']).default('50').describe('hertz of the mains in the shop'),

  interest: z.number().min(0).max(1).default(0.05).describe('interest, a share a year'),
})
export type Figures = z.infer<typeof Figures>
export const FigureName = Figures.keyof()
export type FigureName = keyof Figures

/** Some of the figures: what is known of one tool or one case and stands in place of the shop's own. */
export const SomeFigures = someOf(Figures)
export type SomeFigures = z.infer<typeof SomeFigures>

/** Whose word a figure is. A tool's own record comes between the shop's and the case's. */
export const FigureFrom = z.enum(['usual', 'shop', 'tool', 'case'])
export type FigureFrom = z.infer<typeof FigureFrom>

/** What the shop keeps: its currency, and those figures that it has set. Amounts are in that currency's minor unit. */
export const ShopRecord = z.strictObject({ currency: Currency, figures: SomeFigures })
export type ShopRecord = z.infer<typeof ShopRecord>

/** While nobody has set any: the usual figures, in euros. */
export const usualRecord: ShopRecord = { currency: { code: 'EUR', digits: 2 }, figures: {} }
