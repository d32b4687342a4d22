/**
 * How far the cost of a way may come out from what is expected: which fault it turns out to be, whether the repair
 * works, what the service asks, how long it is away. Drawn with a fixed seed, the same draws for every way.
 */
import type { View, Way } from './options.js'
import { endingOf, isMended, jobMakeup, replaced, totalOf } from './options.js'
import { replacingCost, sendingIn, warrantyHolds } from './prices.js'
import type { MayBe, Trouble } from './trouble.js'

/** A cost that 1 in 10 stay below, the middle one, and one that 1 in 10 exceed; minor units. */
export interface Spread {
  readonly low: number
  readonly middle: number
  readonly high: number
  /** no draw was needed: every outcome was weighed */
  readonly exact: boolean
}

/** An outcome and how likely it is; the shares of a way sum to 1. */
interface Outcome {
  readonly cost: number
  readonly share: number
}

/** Draws for one quantile: the standard error of a 10th percentile's rank is then below half a percent. */
const draws = 4000
const seed = 20_261_125

/** @returns the spread of each way; exact where neither fee nor days are a range */
export function spreadsOf(trouble: Trouble, view: View): Readonly<Record<Way, Spread>> {
  const { figures } = view
  const ranges = figures.feeLow < figures.feeHigh || figures.daysAwayLow < figures.daysAwayHigh
  const asking = trouble.asking * figures.minute
  const fresh = totalOf(replaced(view).makeup)
  const outcomes = ranges ? drawn : weighed
  const all = outcomes(trouble, view)
  return {
    'mend-here': spread(shifted(all.here, asking), !ranges),
    'send-in': spread(all.away, !ranges),
    replace: { low: fresh, middle: fresh, high: fresh, exact: true },
  }
}

const shifted = (outcomes: readonly Outcome[], by: number): Outcome[] =>
  outcomes.map(({ cost, share }) => ({ cost: cost + by, share }))

interface Both {
  readonly here: readonly Outcome[]
  readonly away: readonly Outcome[]
}

/** Every outcome with its share. */
function weighed({ mayBe }: Trouble, view: View): Both {
  const { figures } = view
  const fee = figures.feeLow
  const days = figures.daysAwayLow
  return {
    here: mayBe.flatMap((it) => hereOutcomes(view, it, fee, days).map(byWeight(it))),
    away: mayBe.flatMap((it) => awayOutcomes(view, it, fee, days).map(byWeight(it))),
  }
}

const byWeight =
  ({ weight }: MayBe) =>
  ({ cost, share }: Outcome): Outcome => ({ cost, share: share * weight })

/** As many outcomes as there are draws, each with the same share. */
function drawn({ mayBe }: Trouble, view: View): Both {
  const { feeLow, feeHigh, daysAwayLow, daysAwayHigh } = view.figures
  const next = numbersFrom(seed)
  const here: Outcome[] = []
  const away: Outcome[] = []
  for (let k = 0; k < draws; k++) {
    const it = pick(mayBe, next())
    const fee = feeLow + next() * (feeHigh - feeLow)
    const days = daysAwayLow + next() * (daysAwayHigh - daysAwayLow)
    const luck = next()
    here.push({ cost: at(hereOutcomes(view, it, fee, days), luck), share: 1 / draws })
    away.push({ cost: at(awayOutcomes(view, it, fee, days), luck), share: 1 / draws })
  }
  return { here, away }
}

function pick(mayBe: readonly MayBe[], at: number): MayBe {
  let left = at * mayBe.reduce((sum, { weight }) => sum + weight, 0)
  for (const it of mayBe) if ((left -= it.weight) <= 0) return it
  return mayBe.at(-1)!
}

function at(outcomes: readonly Outcome[], luck: number): number {
  let left = luck
  for (const { cost, share } of outcomes) if ((left -= share) <= 0) return cost
  return outcomes.at(-1)!.cost
}

function awayOutcomes({ figures, opened }: View, it: MayBe, fee: number, days: number): Outcome[] {
  const price = sendingIn(figures, warrantyHolds(figures, opened), fee, days)
  const mends = it.serviceMends ? price.mends : 0
  return [
    { cost: price.mended + price.away, share: mends },
    { cost: price.inVain + price.away + replacingCost(figures), share: 1 - mends },
  ]
}

function hereOutcomes(view: View, it: MayBe, fee: number, days: number): Outcome[] {
  const endOutcomes =
    endingOf(view, it) === 'send-in'
      ? awayOutcomes(view, it, fee, days)
      : [{ cost: totalOf(replaced(view).makeup), share: 1 }]
  if (!isMended(view, it)) return endOutcomes
  const spent = it.jobs.reduce((sum, job) => sum + totalOf(jobMakeup(view, job)), 0)
  const works = it.jobs.reduce((chance, job) => chance * job.chance, 1)
  return [
    { cost: spent, share: works },
    ...shifted(endOutcomes, spent).map(({ cost, share }) => ({ cost, share: share * (1 - works) })),
  ]
}

function spread(outcomes: readonly Outcome[], exact: boolean): Spread {
  const sorted = [...outcomes].sort((a, b) => a.cost - b.cost)
  const quantile = (share: number): number => {
    let sum = 0
    for (const outcome of sorted) if ((sum += outcome.share) >= share - 1e-9) return outcome.cost
    return sorted.at(-1)?.cost ?? 0
  }
  return { low: quantile(0.1), middle: quantile(0.5), high: quantile(0.9), exact }
}

/**
 * Numbers in (0, 1) from the minimal standard generator: x ← 16807·x mod 2³¹ − 1 (Park & Miller 1988; `minstd_rand0` of
 * ISO/IEC 14882). Good enough for quantiles, and the same everywhere.
 */
export function numbersFrom(start: number): () => number {
  let x = start
  return () => {
    x = (16_807 * x) % 2_147_483_647
    return x / 2_147_483_647
  }
}
