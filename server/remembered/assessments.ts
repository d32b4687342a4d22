import type { Assessment } from '../../shared/diagnosis.js'
import type { ShopSettings, Situation } from '../../shared/situation.js'
import { rememberLately } from './lately.js'

/** The diagnosis, remembered for the situations seen lately, so that a reload costs no second run. */
export interface Assessments {
  /** Same result as `assess`; equal situations share one object, which must not be changed. */
  of(situation: Situation, shop: ShopSettings): Promise<Assessment>
}

/**
 * @param assess the pure core, already tied to one rulebook
 * @param most   how many assessments are kept; one takes some tens of kilobytes
 */
export function rememberAssessments(
  assess: (situation: Situation, shop: ShopSettings) => Promise<Assessment>,
  most = 500,
): Assessments {
  const remember = rememberLately<Assessment>(most)
  return { of: (situation, shop) => remember(keyOf(situation, shop), () => assess(situation, shop)) }
}

/** One text for all situations that the diagnosis cannot tell apart. Only the order of fixes matters. */
export function keyOf(situation: Situation, shop: ShopSettings): string {
  const { kind, answers, fixesTried, answeredAfter, cannotDo, stopsLifted, standing, looksWanted } = situation
  const { sure = [], odds = {}, learned, lookedEnough = false } = situation
  return JSON.stringify([
    kind,
    Object.keys(answers)
      .sort()
      .map((question) => [question, answers[question], answeredAfter[question] ?? 0]),
    fixesTried,
    [...new Set(cannotDo)].sort(),
    [...new Set(stopsLifted)].sort(),
    [...new Set(standing)].sort(),
    looksWanted,
    lookedEnough,
    [...sure].sort(),
    learned?.id ?? '',
    Object.entries(odds).sort(([a], [b]) => (a < b ? -1 : 1)),
    Object.entries(shop).sort(([a], [b]) => (a < b ? -1 : 1)),
  ])
}
