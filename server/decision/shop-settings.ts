/** What the plan pays, from the figures: sending in and replacing cost at every step what the comparison says. */
import type { Currency, Figures } from '../../shared/figures.js'
import type { ShopSettings } from '../../shared/situation.js'
import { ScreenTime } from '../../shared/situation.js'
import { dayCost, minuteCost, replacingCost, sendingIn, warrantyHolds } from './prices.js'

/** The size of the major unit in minor ones: 100 where there are cents. */
export const minorIn = ({ digits }: Currency): number => 10 ** digits

/**
 * @param opened has the body been opened in this case, so that a warranty may be gone?
 * @returns the settings of the plan, in major units
 */
export function settingsFrom(figures: Figures, currency: Currency, opened: boolean): ShopSettings {
  const unit = minorIn(currency)
  const holds = warrantyHolds(figures, opened)
  const sent = sendingIn(figures, holds)
  return {
    rate: minuteCost(figures) / unit,
    sendIn: sent.fixed / unit,
    sendInPaid: sendingIn(figures, false).fixed / unit,
    sendInVain: sent.inVain / unit,
    serviceMends: sent.fixes,
    turnaroundDays: sent.days,
    dayWithout: dayCost(figures) / unit,
    replace: replacingCost(figures) / unit,
    replaceRenewed: replacingCost(figures, 1) / unit,
    teaches: figures.teaches / unit,
    partDays: figures.partDays,
    partsToBeHad: figures.partsToBeHad,
    skill: figures.skill,
    canSafetyTest: figures.canSafetyTest,
    inWarranty: holds && figures.openingVoids,
    screens: ScreenTime.parse({}),
  }
}
