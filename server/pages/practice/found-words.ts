/** What an exercise came to, in words that everybody uses at the bench. */
import type { Knowledge } from '../../../shared/knowledge.js'
import type { Rating } from '../../practice/recall.js'
import { ratingOf } from '../../practice/recall.js'
import type { Result } from '../../practice/result.js'
import { lookupOf } from '../../../shared/rulebook-index.js'
import { minutes } from '../layout/words.js'
import { causeName, lowered } from './move-words.js'

const found: Readonly<Record<Rating, string>> = {
  1: 'not named',
  2: 'nearly',
  3: 'found',
  4: 'found and sure',
}

/** "Worn carbon brushes: found and sure. Dry bearing: missed" */
export const foundWords = (knowledge: Knowledge, result: Result): string =>
  result.causes
    .map((cause) => `${causeName(knowledge, result.kind, cause)}: ${found[ratingOf(result, cause)]}`)
    .join('. ')

/** "Found, 12 minutes lost", for a sentence's middle; minutes against the plan, null while they are reckoned. */
export function lostWords(lost: number | null): string {
  if (lost === null) return 'minutes lost: being worked out'
  return lost < 0.75 ? 'nothing lost' : `${minutes(lost)} lost`
}

export const kindName = (knowledge: Knowledge, kind: string): string =>
  lookupOf(knowledge).kinds.get(kind)?.plainName ?? 'A kind no longer in the rulebook'

export const levelName = (knowledge: Knowledge, level: string): string =>
  knowledge.levels.find(({ id }) => id === level)?.name ?? 'a level no longer in the rulebook'

/** A cause in the middle of a sentence. */
export const causeInWords = (knowledge: Knowledge, kind: string, cause: string): string =>
  lowered(causeName(knowledge, kind, cause))
