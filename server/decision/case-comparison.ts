/** A case → the three ways out with their reasons: planned, weighed, judged, and turned until the choice flips. */
import type { CaseFlips } from './case-flips.js'
import { caseFlips } from './case-flips.js'
import type { CaseInputs } from './case-plan.js'
import { casePlanner } from './case-plan.js'
import type { Weighed } from './compare.js'
import { weighed } from './compare.js'
import { minorIn } from './shop-settings.js'
import type { Trouble } from './trouble.js'

export interface CaseComparison extends Weighed, CaseFlips {
  readonly trouble: Trouble
}

/** Pure, and some hundred milliseconds: remember it (`server/comparisons.ts`). */
export async function caseComparison(inputs: CaseInputs): Promise<CaseComparison> {
  const { figures, opened, currency } = inputs
  const planner = await casePlanner(inputs)
  const { trouble, standing } = planner.now
  const now = await weighed(trouble, { figures, opened }, standing)
  return {
    ...now,
    trouble,
    ...(await caseFlips(planner, { figures, opened }, now, minorIn(currency))),
  }
}
