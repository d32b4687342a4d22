/** At which value of each figure the choice flips: the figures are guesses, and this tells which guess matters. */
import type { FigureName, Figures } from '../../shared/figures.js'
import type { Option, View, Way } from './options.js'
import { cheapest, optionsOf } from './options.js'
import type { Trouble } from './trouble.js'

/** A figure that can be turned up and down. `fee` and `daysAway` are the two ends of their range together. */
export type Turned = 'fee' | 'daysAway' | NumberName
type NumberName = {
  [F in FigureName]: Figures[F] extends number | null ? F : never
}[FigureName]

interface Dial {
  readonly least: number
  readonly most: number
  /** the finest step that somebody would enter */
  readonly step: number
  readonly read: (figures: Figures) => number
  readonly turn: (figures: Figures, to: number) => Figures
}

const dial = (name: NumberName, least: number, most: number, step: number): Dial => ({
  least,
  most,
  step,
  read: (figures) => figures[name] ?? figures.newLife / 2,
  turn: (figures, to) => ({ ...figures, [name]: to }),
})

/** Amounts are tried up to a hundred times what they are, or this, in minor units. */
const mostAmount = 1_000_000

export const dials: Readonly<Partial<Record<Turned, Dial>>> = {
  minute: dial('minute', 0, mostAmount, 1),
  fee: {
    least: 0,
    most: mostAmount,
    step: 1,
    read: ({ feeLow, feeHigh }) => (feeLow + feeHigh) / 2,
    turn: (figures, to) => ({ ...figures, feeLow: to, feeHigh: to }),
  },
  inspection: dial('inspection', 0, mostAmount, 1),
  carriage: dial('carriage', 0, mostAmount, 1),
  serviceMends: dial('serviceMends', 0.05, 1, 0.01),
  daysAway: {
    least: 0,
    most: 365,
    step: 1,
    read: ({ daysAwayLow, daysAwayHigh }) => (daysAwayLow + daysAwayHigh) / 2,
    turn: (figures, to) => ({ ...figures, daysAwayLow: to, daysAwayHigh: to }),
  },
  dayWithout: dial('dayWithout', 0, mostAmount, 1),
  partDays: dial('partDays', 0, 365, 1),
  newPrice: dial('newPrice', 0, mostAmount, 1),
  newDays: dial('newDays', 0, 365, 1),
  newLife: dial('newLife', 0.5, 40, 0.5),
  newUpkeep: dial('newUpkeep', 0, mostAmount, 1),
  age: dial('age', 0, 40, 0.5),
  upkeep: dial('upkeep', 0, mostAmount, 1),
  interest: dial('interest', 0, 1, 0.01),
}

/** Where a figure, turned one way with all others as they are, first changes which way is best. */
export interface Flip {
  readonly figure: Turned
  readonly now: number
  /** the first value, in steps that somebody would enter, at which another way is best */
  readonly at: number
  readonly to: Way
  /** how far that is: |at − now| as a share of `now`, or of the whole dial where it stands at 0 */
  readonly distance: number
}

/**
 * Each figure's nearest flip upwards and downwards, the closest first. A figure that never flips the choice is not in it.
 *
 * @param allowed ways that no rule bars
 */
export function flipsOf(trouble: Trouble, view: View, allowed: (way: Way) => boolean): readonly Flip[] {
  const best = (figures: Figures): Option | null =>
    cheapest(optionsOf(trouble, { ...view, figures }), allowed)
  const now = best(view.figures)
  if (now === null) return []
  const flips = Object.entries(dials).flatMap(([name, it]) =>
    [-1, 1].flatMap((direction): Flip[] => {
      const found = firstOther(it, view.figures, direction, (figures) => best(figures)!.way !== now.way)
      if (found === null) return []
      const start = it.read(view.figures)
      const whole = start === 0 ? it.most - it.least : Math.abs(start)
      return [
        {
          figure: name as Turned,
          now: start,
          at: found,
          to: best(it.turn(view.figures, found))!.way,
          distance: Math.abs(found - start) / whole,
        },
      ]
    }),
  )
  return flips.sort((a, b) => a.distance - b.distance)
}

/** The first value on the grid, from where it stands, at which the choice is another; null if there is none. */
function firstOther(
  { least, most, step, read, turn }: Dial,
  figures: Figures,
  direction: number,
  isOther: (figures: Figures) => boolean,
): number | null {
  const start = read(figures)
  const steps = Math.floor(direction > 0 ? (most - start) / step : (start - least) / step)
  const value = (k: number): number => tidy(start + direction * k * step)
  const other = (k: number): boolean => isOther(turn(figures, value(k)))
  // strides that grow, so that near flips are found exactly and far ones at all; then halving between two strides
  let near = 0
  for (let stride = 1; near < steps; stride = Math.max(stride + 1, Math.ceil(stride * 1.15))) {
    const far = Math.min(steps, near + stride)
    if (other(far)) return value(firstBetween(near, far, other))
    near = far
  }
  return null
}

/** `no` is known not to hold, `yes` to hold. */
function firstBetween(no: number, yes: number, holds: (k: number) => boolean): number {
  while (yes - no > 1) {
    const middle = Math.floor((no + yes) / 2)
    if (holds(middle)) yes = middle
    else no = middle
  }
  return yes
}

const tidy = (value: number): number => Math.round(value * 1e6) / 1e6
