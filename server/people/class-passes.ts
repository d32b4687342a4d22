/**
 * What lets a phone of a class practise that nobody has signed in on: it joined by the class's word and number. Kept in
 * memory for a day at most: after a restart the phone joins again, and goes on as before.
 */
import { randomBytes } from 'node:crypto'
import { LRUCache } from 'lru-cache'

/** Milliseconds that a pass is good for. */
export const passStays = 12 * 3_600_000

export interface ClassPasses {
  /** @param learners ids of who practises on the phone */
  give(learners: readonly string[]): string
  /** The learners of that pass; undefined where it is none. */
  learnersOf(key: string): readonly string[] | undefined
}

export function classPasses(): ClassPasses {
  const known = new LRUCache<string, readonly string[]>({ max: 2000, ttl: passStays })
  return {
    give(learners) {
      const key = randomBytes(24).toString('base64url')
      known.set(key, learners)
      return key
    },
    learnersOf: (key) => known.get(key),
  }
}
