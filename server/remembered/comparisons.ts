import { onceFor } from '../../shared/once-for.js'
import { keyOf } from './assessments.js'
import type { Prepared } from '../diagnosis/prepare.js'
import type { CaseComparison } from '../decision/case-comparison.js'
import type { CaseInputs } from '../decision/case-plan.js'
import { settingsFrom } from '../decision/shop-settings.js'
import type { DoSum } from './heavy-sums.js'
import { onThisThread } from './side-thread.js'
import { rememberLately } from './lately.js'

/** How many comparisons are kept for one rulebook; one takes some tens of kilobytes. */
const most = 100

const ofRulebook = onceFor((_: Prepared) => rememberLately<CaseComparison>(most))

/**
 * The comparison of a case, remembered for those seen lately, so that a reload costs no second run.
 *
 * @param doSum on which thread; this one unless told
 */
export function comparisonOf(inputs: CaseInputs, doSum: DoSum = onThisThread): Promise<CaseComparison> {
  const { prepared, ...given } = inputs
  return ofRulebook(prepared)(keyOfInputs(inputs), () => doSum(prepared, 'comparison', given))
}

function keyOfInputs({ situation, figures, currency, opened, disinfected }: CaseInputs): string {
  const known = keyOf(situation, settingsFrom(figures, currency, opened))
  return JSON.stringify([
    known,
    Object.entries(figures).sort(([a], [b]) => (a < b ? -1 : 1)),
    currency,
    opened,
    disinfected,
  ])
}
