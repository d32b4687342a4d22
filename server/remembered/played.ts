/** Exercises under way, kept for a while: what was worked out for one move serves the next. Each thread keeps its own. */
import { LRUCache } from 'lru-cache'
import { onceFor } from '../../shared/once-for.js'
import type { Exercise } from '../../shared/practice.js'
import type { Prepared } from '../diagnosis/prepare.js'
import { exerciseOfToday } from '../practice/moved-exercise.js'
import type { Played } from '../practice/played.js'
import { playOn, playOut } from '../practice/played.js'

/** Exercises kept for one rulebook; one takes a megabyte or two. */
const mostPlayed = 40

const playedUnder = onceFor((_: Prepared) => new LRUCache<string, Promise<Played>>({ max: mostPlayed }))

/** Ids are given once in a shop, so that two shops of one server need a number before them. */
let shops = 0
export const numberOf = onceFor((_shop: object) => ++shops)

/**
 * An exercise as it stands, in the ids of this rulebook.
 *
 * @param shop the number of its shop
 * @throws RangeError where its kind or level is no longer in the rulebook
 */
export function playedIn(prepared: Prepared, stored: Exercise, shop: number): Promise<Played> {
  const exercise = exerciseOfToday(stored, prepared.knowledge.moved)
  const played = playedUnder(prepared)
  const key = `${shop} ${exercise.id}`
  const known = played.get(key)
  const fresh = known ? known.then((it) => continued(prepared, it, exercise)) : playOut(prepared, exercise)
  played.set(key, fresh)
  // A failure is not remembered. The caller gets the rejection from `fresh` itself.
  fresh.catch(() => played.get(key) === fresh && played.delete(key))
  return fresh
}

/** The same. @param shop any object that stands for its shop, as long as the server runs */
export const playedOf = (prepared: Prepared, stored: Exercise, shop: object): Promise<Played> =>
  playedIn(prepared, stored, numberOf(shop))

function continued(prepared: Prepared, known: Played, exercise: Exercise): Promise<Played> | Played {
  const before = known.exercise.moves.length
  if (before === exercise.moves.length) return known
  // a request that was overtaken asks for fewer moves than are known: it gets them all anew
  return before < exercise.moves.length ? playOn(known, exercise) : playOut(prepared, exercise)
}
