/** Milliseconds of one exact scoring and of one next step, over a fixed set of situations. */
import { score } from '../../server/diagnosis/assess.js'
import { findingsFrom } from '../../server/diagnosis/findings.js'
import { nextStep } from '../../server/diagnosis/plan.js'
import type { Prepared } from '../../server/diagnosis/prepare.js'
import { kindOf } from '../../server/diagnosis/prepare.js'
import type { Situation } from '../../shared/situation.js'
import { ShopSettings } from '../../shared/situation.js'

/** All in milliseconds of the clock, so another busy program makes them worse. */
export interface Timing {
  readonly median: number
  readonly percentile99: number
}

export interface CoreSpeed {
  readonly assess: Timing
  readonly next: Timing
  /** situations whose posterior was exact */
  readonly exact: number
  readonly situations: number
}

const shop = ShopSettings.parse({})
/** Each situation is timed so often, and its fastest time counts: what the machine does beside it is no news. */
const tries = 3
/** Whatever takes so many milliseconds is timed once. */
const slow = 500

export async function coreSpeed(prepared: Prepared, situations: readonly Situation[]): Promise<CoreSpeed> {
  const assessing: number[] = []
  const planning: number[] = []
  let exact = 0
  // The compiler of the language has to have seen the code before it is timed.
  for (const situation of situations.slice(0, 12)) await timed(prepared, situation)
  for (const situation of situations) {
    const one = await timed(prepared, situation)
    for (let k = 1; k < tries && one.next < slow; k++) {
      const again = await timed(prepared, situation)
      one.assess = Math.min(one.assess, again.assess)
      one.next = Math.min(one.next, again.next)
    }
    assessing.push(one.assess)
    planning.push(one.next)
    if (one.exact) exact++
  }
  return { assess: timing(assessing), next: timing(planning), exact, situations: situations.length }
}

async function timed(prepared: Prepared, situation: Situation) {
  const kind = kindOf(prepared, situation.kind)
  const begun = performance.now()
  const { causes, evidence, exact } = await score(prepared, situation)
  const scored = performance.now()
  // What the plan starts from is no part of the plan.
  const { states, relevance, stops } = await findingsFrom(kind.model, situation)
  const barred = new Set((await kind.barred(shop)).keys())
  const planned = performance.now()
  nextStep({ prepared: kind, states, evidence, relevance, stops, causes, situation, shop, barred })
  return { assess: scored - begun, next: performance.now() - planned, exact }
}

function timing(times: number[]): Timing {
  const sorted = times.sort((a, b) => a - b)
  const at = (share: number) => sorted[Math.min(sorted.length - 1, Math.ceil(share * sorted.length) - 1)]!
  return { median: at(0.5), percentile99: at(0.99) }
}

/** The k of time ∝ size^k: slope of the least-squares line through the logarithms. */
export function growth(points: readonly (readonly [size: number, time: number])[]): number {
  const logs = points.map(([size, time]) => [Math.log(size), Math.log(time)] as const)
  const mean = (of: (point: readonly [number, number]) => number) =>
    logs.reduce((sum, point) => sum + of(point), 0) / logs.length
  const x = mean(([size]) => size)
  const y = mean(([, time]) => time)
  const spread = logs.reduce((sum, [size]) => sum + (size - x) ** 2, 0)
  return logs.reduce((sum, [size, time]) => sum + (size - x) * (time - y), 0) / spread
}
