import { LRUCache } from 'lru-cache'
import { keyOf } from './assessments.js'
import type { Prepared } from '../diagnosis/prepare.js'
import type { CaseComparison } from '../decision/case-comparison.js'
import { caseComparison } from '../decision/case-comparison.js'
import type { CaseInputs } from '../decision/case-plan.js'
import { settingsFrom } from '../decision/shop-settings.js'

/** How many comparisons are kept for one rulebook; one takes some tens of kilobytes. */
const most = 100

const ofRulebooks = new WeakMap<Prepared, LRUCache<string, Promise<CaseComparison>>>()

/** The comparison of a case, remembered for those seen lately, so that a reload costs no second run. */
export function comparisonOf(inputs: CaseInputs): Promise<CaseComparison> {
  let kept = ofRulebooks.get(inputs.prepared)
  if (!kept) ofRulebooks.set(inputs.prepared, (kept = new LRUCache({ max: most })))
  const key = keyOfInputs(inputs)
  const known = kept.get(key)
  if (known) return known
  const fresh = caseComparison(inputs)
  kept.set(key, fresh)
  // A failure is not remembered. The caller gets the rejection from `fresh` itself.
  fresh.catch(() => kept.delete(key))
  return fresh
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
