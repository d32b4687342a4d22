/** What a learner has to remember: causes, and pairs of causes that were mixed up. From results alone. */
import type { Review, Rating } from './recall.js'
import { ratingOf } from './recall.js'
import type { Result } from './result.js'

export interface Item {
  readonly kind: string
  /** one cause, or the two of a pair in alphabetical order */
  readonly causes: readonly [string] | readonly [string, string]
  readonly reviews: readonly Review[]
}

/** Points on a cause that was not there, from which it counts as mixed up with the one that was. */
const mixedUp = 30

/**
 * @param results in any order; a cause's item begins with the first exercise in which it was there, a pair's with
 *                the first in which one was there, was not found, and the other had 30 points or more
 */
export function itemsOf(results: readonly Result[]): Item[] {
  const items = new Map<string, { kind: string; causes: Item['causes']; reviews: Review[] }>()
  const review = (kind: string, causes: Item['causes'], rating: Rating, at: string) => {
    const key = [kind, ...causes].join('|')
    const item = items.get(key) ?? { kind, causes, reviews: [] }
    items.set(key, item)
    item.reviews.push({ rating, at })
  }
  for (const result of inTime(results)) {
    const { kind, at, causes, spread } = result
    for (const cause of causes) {
      const rating = ratingOf(result, cause)
      const wrong = Object.entries(spread?.points ?? {}).filter(([id]) => !causes.includes(id))
      const pairs = new Map<string, number>(wrong)
      for (const item of items.values())
        if (item.kind === kind && item.causes.length === 2 && item.causes.includes(cause)) {
          const other = item.causes.find((id) => id !== cause)!
          if (!causes.includes(other) && !pairs.has(other)) pairs.set(other, 0)
        }
      for (const [other, points] of pairs) {
        const pair = [cause, other].sort() as [string, string]
        const isKnown = items.has([kind, ...pair].join('|'))
        if (isKnown || (points >= mixedUp && rating <= 2)) review(kind, pair, pairRating(rating, points), at)
      }
      review(kind, [cause], rating, at)
    }
  }
  return [...items.values()]
}

/** Told apart: no points on the other, as sure as the cause itself was found; some: barely; many: missed. */
const pairRating = (own: Rating, onOther: number): Rating =>
  onOther >= mixedUp ? 1 : onOther > 0 || own === 1 ? (Math.min(own, 2) as Rating) : own

/** Oldest first; of the same instant by id. */
export const inTime = (results: readonly Result[]): Result[] =>
  [...results].sort((a, b) => (a.at === b.at ? (a.exercise < b.exercise ? -1 : 1) : a.at < b.at ? -1 : 1))
