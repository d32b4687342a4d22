/** What the plan reckons with, from the figures: sending in and replacing cost at every step what the comparison says. */
import type { Currency, Figures } from '../../shared/figures.js'
import type { ShopSettings } from '../../shared/situation.js'
import { ScreenTime } from '../../shared/situation.js'
import { dayCost, replacingCost, sendingIn, warrantyHolds } from './prices.js'

/** The size of the major unit in minor ones: 100 where there are cents. */
export const minorIn = ({ digits }: Currency): number => 10 ** digits

/**
 * @param opened has the body been opened in this case, so that a warranty may be gone?
 * @returns the settings of the plan, in major units
 */
export function settingsFrom(figures: Figures, currency: Currency, opened: boolean): ShopSettings {
  const unit = minorIn(currency)
  const sent = sendingIn(figures, warrantyHolds(figures, opened))
  return {
    rate: figures.minute / unit,
    sendIn: sent.mended / unit,
    sendInVain: sent.inVain / unit,
    serviceMends: sent.mends,
    turnaroundDays: (figures.daysAwayLow + figures.daysAwayHigh) / 2,
    dayWithout: dayCost(figures) / unit,
    replace: replacingCost(figures) / unit,
    partDays: figures.partDays,
    partsToBeHad: figures.partsToBeHad,
    skill: figures.skill,
    canSafetyTest: figures.canSafetyTest,
    inWarranty: warrantyHolds(figures, opened),
    screens: ScreenTime.parse({}),
  }
}
