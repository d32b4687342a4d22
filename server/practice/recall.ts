/**
 * How well a thing is still remembered: the FSRS-6 model of forgetting (ts-fsrs) over what an exercise showed of it.
 * The only import of the scheduler. Its four ratings are plain numbers here, 1 (missed) to 4 (sure); its own words
 * for them are for people who rate themselves, and nobody does so here: see `ratingOf`.
 */
import type { Card, Grade } from 'ts-fsrs'
import { createEmptyCard, fsrs, generatorParameters } from 'ts-fsrs'
import type { Result } from './result.js'
import { pointsOn } from './result.js'

/** 1: missed, 2: barely, 3: found, 4: found and sure. */
export type Rating = 1 | 2 | 3 | 4

export interface Review {
  readonly rating: Rating
  /** ISO 8601, UTC */
  readonly at: string
}

/** Enough of the points to say that it was found, and to say that it was sure. */
const enough = 50
const sure = 80

/**
 * How a cause was found in an exercise in which it was there:
 * 4 at least 80 points on it, and no slip; 3 at least 50; 2 at least 10, or the tool was mended without;
 * 1 otherwise, and whenever a slip ended the exercise. Handed back with the trouble in it: at most 2.
 * Of several causes each is due its part: points count by their number.
 */
export function ratingOf(result: Result, cause: string): Rating {
  if (result.over === 'slip') return 1
  const points = pointsOn(result, cause)
  const full: Rating =
    points >= sure && result.slips.length === 0
      ? 4
      : points >= enough
        ? 3
        : points > 0 || result.mended
          ? 2
          : 1
  return result.over === 'hand-back' && !result.mended && full > 2 ? 2 : full
}

/** What is remembered of one thing. */
export interface Memory {
  /** days until recall falls to the wanted share */
  readonly stability: number
  /** 1 (easy) to 10 */
  readonly difficulty: number
  /** days from the last review to the next, and when that is (ISO 8601) */
  readonly scheduledDays: number
  readonly due: string
  /** after each review, the days to the next one */
  readonly intervals: readonly number[]
  /** chance that it would be found now, in [0, 1] */
  readonly recallAt: (instant: string) => number
}

/** Recall that is aimed at: due when it falls below. The package's own default. */
export const wantedRecall = 0.9

/**
 * @param reviews   oldest first, one at least
 * @param shortTerm also steps of minutes after a miss; off here, because nobody mends the same fault twice in ten minutes
 */
export function memoryOf(reviews: readonly Review[], shortTerm = false): Memory {
  const scheduler = fsrs(
    generatorParameters({
      enable_fuzz: false,
      enable_short_term: shortTerm,
      request_retention: wantedRecall,
    }),
  )
  let card: Card = createEmptyCard(reviews[0]!.at)
  const intervals = reviews.map(({ rating, at }) => {
    card = scheduler.next(card, at, rating as Grade).card
    return card.scheduled_days
  })
  return {
    stability: card.stability,
    difficulty: card.difficulty,
    scheduledDays: card.scheduled_days,
    due: card.due.toISOString(),
    intervals,
    recallAt: (instant) => scheduler.get_retrievability(card, instant, false),
  }
}
