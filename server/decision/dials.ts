/** Figures that can be turned up and down, and how. */
import type { FigureName, Figures } from '../../shared/figures.js'
import { amountNames } from './figure-sorts.js'

/** `fee` and `daysAway` are the two ends of their range together. */
export type Turned =
  | 'fee'
  | 'daysAway'
  | 'minute'
  | 'carriage'
  | 'serviceMends'
  | 'dayWithout'
  | 'partDays'
  | 'newPrice'
  | 'newDays'
  | 'newLife'
  | 'age'

export interface Dial {
  readonly least: number
  readonly most: number
  /** the finest step that somebody would enter */
  readonly step: number
  readonly read: (figures: Figures) => number
  readonly turn: (figures: Figures, to: number) => Figures
}

const dial = (name: FigureName & Turned, least: number, most: number, step: number): Dial => ({
  least,
  most,
  step,
  read: (figures) => figures[name] ?? figures.newLife / 2,
  turn: (figures, to) => ({ ...figures, [name]: to }),
})

/** Amounts are tried up to this, in minor units. */
const mostAmount = 1_000_000

/** Those that an owner knows or can ask for; upkeep, interest and the fee for a look move no answer that is clear. */
export const dials: Readonly<Record<Turned, Dial>> = {
  fee: {
    least: 0,
    most: mostAmount,
    step: 1,
    read: ({ feeLow, feeHigh }) => (feeLow + feeHigh) / 2,
    turn: (figures, to) => ({ ...figures, feeLow: to, feeHigh: to }),
  },
  daysAway: {
    least: 0,
    most: 365,
    step: 1,
    read: ({ daysAwayLow, daysAwayHigh }) => (daysAwayLow + daysAwayHigh) / 2,
    turn: (figures, to) => ({ ...figures, daysAwayLow: to, daysAwayHigh: to }),
  },
  minute: dial('minute', 0, mostAmount, 1),
  carriage: dial('carriage', 0, mostAmount, 1),
  serviceMends: dial('serviceMends', 0.05, 1, 0.01),
  dayWithout: dial('dayWithout', 0, mostAmount, 1),
  partDays: dial('partDays', 0, 365, 1),
  newPrice: dial('newPrice', 0, mostAmount, 1),
  newDays: dial('newDays', 0, 365, 1),
  newLife: dial('newLife', 0.5, 40, 0.5),
  age: dial('age', 0, 40, 0.5),
}

export const turnedNames = Object.keys(dials) as readonly Turned[]

/** What is more than so many times as high is another figure, not a guess that was off. */
const reach = 3

/** How far a dial is turned in a direction. What stands at nothing is tried up to what is still likely. */
export function limitOf(name: Turned, figures: Figures, direction: number): number {
  const { least, most, read } = dials[name]
  const now = read(figures)
  if (now === 0) return direction < 0 ? 0 : isAmount(name) ? figures.newPrice / 4 : daysAtMost
  return direction < 0 ? Math.max(least, now / reach) : Math.min(most, now * reach)
}
const daysAtMost = 30

export const isAmount = (name: Turned): boolean =>
  name === 'fee' || (amountNames as readonly string[]).includes(name)

/** The next value beyond, on the grid of what one would say: whole sums, tenths below ten, minor units below one. */
export function sayable(name: Turned, value: number, direction: number, unit: number): number {
  const { least, most, step } = dials[name]
  const grid = isAmount(name) ? Math.max(1, gridOfSum(value / unit) * unit) : step
  const steps = value / grid
  const rounded = (direction > 0 ? Math.ceil(steps - 1e-9) : Math.floor(steps + 1e-9)) * grid
  return Math.min(most, Math.max(least, Math.round(rounded * 1e6) / 1e6))
}

const gridOfSum = (sum: number): number => (sum < 1 ? 0 : sum < 10 ? 0.1 : sum < 1000 ? 1 : 10)
