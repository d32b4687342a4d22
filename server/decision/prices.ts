/**
 * From figures to prices: what each way out costs, in real numbers of the minor unit, rounded nowhere.
 *
 * One horizon for every way: a fixed tool serves for the years that are left to it, then a new one is bought anyway; a
 * new one now serves longer. Whatever comes after those years costs the same either way, so replacing costs, set
 * against fixing,
 *
 *     R = (price · A/P(new life) + upkeep of the new − upkeep of the old) · P/A(years left)
 *         + days until it is here + what it costs to be rid of the old one − what that brings
 *
 * the share of a new tool that is used up while the fixed one would have served. A year costs the same sums over the
 * same years, so the order of the ways by total and by year is one and the same.
 */
import type { Figures } from '../../shared/figures.js'
import { onceFor } from '../../shared/once-for.js'
import type { Life } from './economy/age-replacement.js'
import { meanLife, meanResidualLife } from './economy/age-replacement.js'
import { capitalRecovery, presentWorthOfYearly } from './economy/annual.js'

/** How tools of one make wear: failures gather round their usual life. A workshop estimate; 1 would be pure chance. */
const wear = 2.5
const meanOfOne = meanLife({ shape: wear, scale: 1 })

/** The law by which such tools last: Weibull, with the life of a new one as its mean. */
export const toolLife = ({ newLife }: Figures): Life => ({ shape: wear, scale: newLife / meanOfOne })

/** Each other motor fault in a year halves what is left of a tool: a workshop estimate. */
const leftByMotorFault = 0.5

/**
 * Years that the tool would go on serving once fixed: the mean residual life at its age; unknown: half its life.
 * Asked for every fault that it may be, and an integral each time.
 */
export const yearsLeft = onceFor(
  (figures: Figures): number =>
    meanResidualLife(toolLife(figures), figures.age ?? figures.newLife / 2) *
    Math.pow(leftByMotorFault, figures.motorFaultsThisYear),
)

/** A day without the tool; nothing where a spare stands in, no more than a loan costs. */
export const dayCost = ({ hasSpare, dayWithout, loanDay }: Figures): number =>
  hasSpare ? 0 : Math.min(dayWithout, loanDay ?? Infinity)

/** Minutes of a working day: what is on the bench is not in a hand. */
const dayMinutes = 480

/** A minute of work on the tool: the hand's, and the tool's own while it lies there. */
export const minuteCost = (figures: Figures): number => figures.minute + dayCost(figures) / dayMinutes

/** What replacing comes to today, in cash. */
export const replacingToday = ({ newPrice, disposal, resale }: Figures): number =>
  Math.max(0, newPrice + disposal - resale)

/**
 * R: what replacing costs, set against fixing. Never below nothing.
 *
 * @param renews share of its used-up life that fixing would give back
 */
export function replacingCost(figures: Figures, renews = 0): number {
  const { newLife, newDays, disposal, resale } = figures
  const used = (1 - renews) * usedUp(figures, yearsLeft(figures)) + renews * usedUp(figures, newLife)
  return Math.max(0, used + disposal - resale) + newDays * dayCost(figures)
}

/** The share of a new tool that is used up over the years. */
function usedUp({ newPrice, newLife, newUpkeep, upkeep, interest }: Figures, years: number): number {
  const yearly = newPrice * capitalRecovery(interest, newLife) + newUpkeep - upkeep
  return Math.max(0, yearly * presentWorthOfYearly(interest, years))
}

/** What one sending comes to. */
export interface SendingIn {
  /** fee and carriage when it comes back fixed */
  readonly fixed: number
  /** inspection and carriage when it comes back as it went */
  readonly inVain: number
  /** days away at the cost of a day */
  readonly away: number
  readonly days: number
  /** chance that a service fixes what can be fixed */
  readonly fixes: number
}

/**
 * What comes back with the same fault goes once more, for nothing but carriage and days.
 *
 * @param free does a warranty pay the work?
 * @param within where in the ranges of fee and days it comes out, 0 to 1; the middle unless told
 */
export function sendingIn(figures: Figures, free: boolean, within = 0.5): SendingIn {
  const { feeLow, feeHigh, daysAwayLow, daysAwayHigh, carriage, inspection, serviceMends, comesBack } =
    figures
  const days = (daysAwayLow + within * (daysAwayHigh - daysAwayLow)) * (1 + comesBack)
  return {
    fixed: (free ? 0 : feeLow + within * (feeHigh - feeLow)) + carriage * (1 + comesBack),
    inVain: (free ? 0 : inspection) + carriage,
    away: days * dayCost(figures),
    days,
    fixes: serviceMends,
  }
}

/** Does a warranty hold: not run out, and not lost by opening? Whether it pays is a question of the part. */
export const warrantyHolds = ({ inWarranty, openingVoids }: Figures, opened: boolean): boolean =>
  inWarranty && !(openingVoids && opened)

/** What a way costs a year over the years that a fixed tool would serve, upkeep included. */
export const yearlyOf = (figures: Figures, cost: number): number =>
  cost * capitalRecovery(figures.interest, yearsLeft(figures)) + figures.upkeep
