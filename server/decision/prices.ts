/**
 * From figures to prices: what each way out costs, in real numbers of the minor unit, rounded nowhere.
 *
 * Replacing is compared by equivalent annual cost. A mended tool serves for the years it has left, then a new one is
 * bought anyway; a new one now serves longer. Both cost the same a year when mending costs
 *
 *     R = (price · A/P(new life) + upkeep of the new − upkeep of the old) · P/A(years left) + days until it is here
 *
 * now. R is therefore what replacing costs, set against mending: the share of a new tool that is used up while the
 * mended one would have served. In the middle of its life that is about half the price, the old rule of the bench.
 */
import type { Figures } from '../../shared/figures.js'
import { capitalRecovery, equivalentAnnualCost, presentWorthOfYearly } from './economy/annual.js'

/** A tool is never reckoned as quite worn out: what runs today runs for some months. */
const leastYearsLeft = 0.5

/** Years that the tool would go on serving once mended. */
export function yearsLeft({ age, newLife }: Figures): number {
  return Math.max(leastYearsLeft, newLife - (age ?? newLife / 2))
}

/** A day without the tool; nothing where a spare stands in. */
export const dayCost = ({ hasSpare, dayWithout }: Figures): number => (hasSpare ? 0 : dayWithout)

/** R: what replacing costs, set against mending. Never below nothing. */
export function replacingCost(figures: Figures): number {
  const { newPrice, newLife, newUpkeep, upkeep, newDays, interest } = figures
  const yearly = newPrice * capitalRecovery(interest, newLife) + newUpkeep - upkeep
  const used = yearly * presentWorthOfYearly(interest, yearsLeft(figures))
  return Math.max(0, used) + newDays * dayCost(figures)
}

/** What one sending comes to. */
export interface SendingIn {
  /** fee and carriage when it comes back mended */
  readonly mended: number
  /** inspection and carriage when it comes back as it went */
  readonly inVain: number
  /** days away at the cost of a day */
  readonly away: number
  /** chance that a service mends what can be mended */
  readonly mends: number
}

/**
 * @param fee  within the range of the quote; its middle unless told
 * @param days away; the middle of the range unless told
 */
export function sendingIn(
  figures: Figures,
  warrantyHolds: boolean,
  fee = (figures.feeLow + figures.feeHigh) / 2,
  days = (figures.daysAwayLow + figures.daysAwayHigh) / 2,
): SendingIn {
  const { carriage, inspection, serviceMends } = figures
  return {
    mended: (warrantyHolds ? 0 : fee) + carriage,
    inVain: (warrantyHolds ? 0 : inspection) + carriage,
    away: days * dayCost(figures),
    mends: serviceMends,
  }
}

/** Is the work of a service free: in warranty, and not opened here, or opening does not matter? */
export const warrantyHolds = ({ inWarranty, openingVoids }: Figures, opened: boolean): boolean =>
  inWarranty && !(openingVoids && opened)

/** What a tool costs a year from now on, when `now` is paid to have it running for the years it has left. */
export const yearlyIfMended = (figures: Figures, now: number): number =>
  equivalentAnnualCost({ now, yearly: figures.upkeep, years: yearsLeft(figures) }, figures.interest)

/** What a new one costs a year. The days until it is here are paid once, over its life. */
export const yearlyIfReplaced = (figures: Figures): number =>
  equivalentAnnualCost(
    {
      now: figures.newPrice + figures.newDays * dayCost(figures),
      yearly: figures.newUpkeep,
      years: figures.newLife,
    },
    figures.interest,
  )
