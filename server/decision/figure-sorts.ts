/** Which figures are amounts of money, and which belong to one tool and to no shop. */
import type { FigureName } from '../../shared/figures.js'

/** In minor units; all others mean the same in every currency. */
export const amountNames = [
  'minute',
  'feeLow',
  'feeHigh',
  'inspection',
  'carriage',
  'dayWithout',
  'loanDay',
  'teaches',
  'newPrice',
  'resale',
  'disposal',
  'newUpkeep',
  'upkeep',
  'spentByYear',
] as const satisfies readonly FigureName[]

/** Figures of one tool: a shop has no one value for them. */
export const toolNames = [
  'inWarranty',
  'openingVoids',
  'partsToBeHad',
  'age',
  'spentByYear',
  'motorFaultsThisYear',
] as const satisfies readonly FigureName[]
