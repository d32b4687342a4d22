/** A case → what to do, and why: planned, weighed, judged, and turned until the choice flips. */
import type { Advice } from './advice.js'
import { adviceOf } from './advice.js'
import type { BreakEvens } from './break-even.js'
import { breakEvens } from './break-even.js'
import type { CaseInputs, CasePlanner } from './case-plan.js'
import { casePlanner } from './case-plan.js'
import type { Weighed } from './compare.js'
import { weighed } from './compare.js'
import { minorIn } from './shop-settings.js'
import type { Spread } from './spread.js'
import { spreadsOf } from './spread.js'
import type { Way } from './options.js'
import type { Trouble } from './trouble.js'

export interface CaseComparison extends Weighed, BreakEvens {
  readonly trouble: Trouble
  readonly advice: Advice
  readonly spreads: Readonly<Record<Way, Spread>>
}

/**
 * Pure, and some hundred milliseconds: remember it (`server/remembered/comparisons.ts`).
 *
 * @param pause called before each plan, so that whoever has other work can let it through
 */
export async function caseComparison(
  inputs: CaseInputs,
  pause: () => Promise<void> = () => Promise.resolve(),
): Promise<CaseComparison> {
  const { figures, opened, currency, assessment } = inputs
  const planner = await casePlanner(inputs)
  await pause()
  const { trouble, standing } = planner.now
  const view = { figures, opened }
  const now = await weighed(trouble, view, standing)
  await pause()
  const advice = adviceOf(now, trouble.mayBe, view, assessment.next)
  return {
    ...now,
    trouble,
    advice,
    spreads: spreadsOf(trouble, { ...view, closed: new Set(now.barred.keys()) }),
    ...(await breakEvens(pausing(planner, pause), view, now, advice, minorIn(currency))),
  }
}

const pausing = (planner: CasePlanner, pause: () => Promise<void>): CasePlanner => ({
  ...planner,
  async at(figures) {
    await pause()
    return planner.at(figures)
  },
})
