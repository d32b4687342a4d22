/** How often signing in was tried in vain, by device and by name: after a few it takes longer and longer. */
import { LRUCache } from 'lru-cache'

const free = 5
const minute = 60_000

export interface Tries {
  /** Milliseconds to wait before the next try; 0 where there is none to wait. */
  wait(keys: readonly string[], now: number): number
  failed(keys: readonly string[], now: number): void
  worked(keys: readonly string[]): void
}

/** Those of the last quarter of an hour, of so many devices and names at most. */
export function countTries(): Tries {
  const known = new LRUCache<string, { count: number; until: number }>({ max: 5000, ttl: 15 * minute })
  return {
    wait: (keys, now) => Math.max(0, ...keys.map((key) => (known.get(key)?.until ?? 0) - now)),
    failed(keys, now) {
      for (const key of keys) {
        const count = (known.get(key)?.count ?? 0) + 1
        // none for the first five, then 1, 2, 4 … minutes, at most a quarter of an hour
        const pause = count < free ? 0 : Math.min(15, 2 ** (count - free)) * minute
        known.set(key, { count, until: now + pause })
      }
    },
    worked(keys) {
      for (const key of keys) known.delete(key)
    },
  }
}
