/**
 * What the estimate can tell. The plan looks ahead only so far (the 95th percentile of its excess over the optimum is
 * about 2 in 100 on rulebooks small enough to solve), and what shops pay is told in round sums.
 */
import type { Figures } from '../../shared/figures.js'
import { minuteCost } from './prices.js'

const share = 0.04

/** Do two expected costs differ by more than that? By a minute of the bench at least. */
export const differs = (a: number, b: number, figures: Figures): boolean =>
  Math.abs(a - b) > Math.max(share * Math.max(a, b), minuteCost(figures))
