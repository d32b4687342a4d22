/**
 * Fraction of faults detected and isolated, by signature (terms of IEEE 1522; MIL-HDBK-2165). Exact.
 *
 * A fault's signature is the findings that it makes true. Faults of one signature form an ambiguity group; its size
 * counts distinct repair items. A fault without any true finding is not detected.
 */

export interface Fault {
  /** how often it happens, on any scale */
  readonly rate: number
  readonly signature: readonly boolean[]
  /** what is repaired or exchanged for it */
  readonly item: number
}

export interface Testability {
  /** share of faults, weighted by rate, that some finding shows */
  readonly detected: number
  /** share of the detected ones in a group of at most `most` repair items */
  readonly isolatedTo: (most: number) => number
}

/** @param faults at least one with a rate above 0 */
export function testability(faults: readonly Fault[]): Testability {
  const groups = new Map<string, Fault[]>()
  for (const fault of faults) {
    if (!fault.signature.includes(true)) continue
    const key = fault.signature.map(Number).join('')
    groups.set(key, [...(groups.get(key) ?? []), fault])
  }
  const rateOf = (some: readonly Fault[]) => some.reduce((sum, { rate }) => sum + rate, 0)
  const detected = rateOf([...groups.values()].flat())
  return {
    detected: detected / rateOf(faults),
    isolatedTo: (most) =>
      rateOf([...groups.values()].filter((group) => new Set(group.map((f) => f.item)).size <= most).flat()) /
      detected,
  }
}
