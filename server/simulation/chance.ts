/**
 * Common random numbers: a number in [0, 1) fixed by its key and not by how many were drawn before it. So a case
 * keeps its draws when the rulebook changes elsewhere, and two rulebooks are compared case by case (Law, Simulation
 * Modeling and Analysis, ch. 11, "Variance-reduction techniques").
 */

const known = new Map<string, number>()

/** An id as a 32-bit number: FNV-1a (Fowler, Noll & Vo; RFC 9923). */
export function keyOf(id: string): number {
  let key = known.get(id)
  if (key === undefined) {
    key = 0x811c9dc5
    for (let k = 0; k < id.length; k++) key = Math.imul(key ^ id.charCodeAt(k), 0x01000193)
    known.set(id, (key >>>= 0))
  }
  return key
}

/** The finishing steps of MurmurHash3 (Appleby, in the public domain): every bit of the input turns about half of the output's. */
function mixed(h: number): number {
  h = Math.imul(h ^ (h >>> 16), 0x85ebca6b)
  h = Math.imul(h ^ (h >>> 13), 0xc2b2ae35)
  return h ^ (h >>> 16)
}

/** @returns a number in [0, 1), the same for the same keys in the same order; 32 bits fine */
export function chance(first: number, ...keys: readonly number[]): number {
  let h = mixed(first + 0x9e3779b9)
  for (const key of keys) h = mixed(Math.imul(h, 5) + 0x7ed55d16 + key)
  return (h >>> 0) / 4294967296
}

/** An exponential number of mean 1 made from `u` in [0, 1). */
export const exponential = (u: number): number => -Math.log1p(-u)

/** A standard normal number made from two of [0, 1), by Box and Muller (Ann. Math. Stat. 29, 1958). */
export const normal = (u: number, v: number): number =>
  Math.sqrt(2 * exponential(u)) * Math.cos(2 * Math.PI * v)
