/** Is a tool dearer to keep than a new one would be? Over one year, in minor units. Pure. */
import type { Figures } from '../../shared/figures.js'
import { capitalRecovery } from './economy/annual.js'

export interface YearsCost {
  /** what it took in a year: services, parts, and the minutes of a hand */
  readonly kept: number
  /** what a new one comes to by the year: its price over its life, with interest, and its upkeep */
  readonly renewed: number
}

export function yearsCost(
  figures: Figures,
  {
    services,
    parts,
    minutes,
  }: { readonly services: number; readonly parts: number; readonly minutes: number },
): YearsCost {
  const { minute, newPrice, newLife, newUpkeep, interest } = figures
  return {
    kept: services + parts + minutes * minute,
    renewed: newPrice * capitalRecovery(interest, newLife) + newUpkeep,
  }
}
