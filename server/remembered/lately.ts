import { LRUCache } from 'lru-cache'

/**
 * Remembers what took long, for the keys asked for lately.
 *
 * @param most how many are kept
 * @returns what is known for the key, or what `make` comes to
 */
export function rememberLately<Made>(
  most: number,
): (key: string, make: () => Promise<Made>) => Promise<Made> {
  const kept = new LRUCache<string, Promise<Made>>({ max: most })
  return (key, make) => {
    const known = kept.get(key)
    if (known) return known
    // The promise is kept, not its value: two who ask at once then share one run.
    const fresh = make()
    kept.set(key, fresh)
    // A failure is not remembered. Whoever asked gets the rejection from `fresh` itself.
    fresh.catch(() => kept.get(key) === fresh && kept.delete(key))
    return fresh
  }
}
