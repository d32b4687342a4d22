/** Chances of made sounds: the same number gives the same sound, everywhere and always. */
export interface Draws {
  /** in [0, 1) */
  unit(): number
  /** between two bounds */
  between(low: number, high: number): number
  /** mean 0, standard deviation 1 */
  normal(): number
}

/** @param seed any whole number. The generator is Steele, Lea and Flood's SplitMix, cut to 32 bits. */
export function drawsFrom(seed: number): Draws {
  let state = Math.imul(seed + 1, 0x9e3779b9)
  const unit = (): number => {
    state = (state + 0x9e3779b9) | 0
    let mixed = Math.imul(state ^ (state >>> 16), 0x85ebca6b)
    mixed = Math.imul(mixed ^ (mixed >>> 13), 0xc2b2ae35)
    return ((mixed ^ (mixed >>> 16)) >>> 0) / 2 ** 32
  }
  return {
    unit,
    between: (low, high) => low + (high - low) * unit(),
    // Box and Muller's transform
    normal: () => Math.sqrt(-2 * Math.log(1 - unit())) * Math.cos(2 * Math.PI * unit()),
  }
}
