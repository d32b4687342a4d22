/** Page models of the small graphics: how dense a part is hatched, and the field of 100 dots. */

/** Density of hatching: 0 bare paper (hardly suspected) to 5 nearly solid. */
export type ShadeLevel = 0 | 1 | 2 | 3 | 4 | 5

/** What `partials/dots` needs: a field of 100 dots. */
export interface DotField {
  /** the full ones as SVG path data, row by row; each is a line of no length, which round ends make a dot */
  readonly full: string
  /** says it in words, or is empty where words stand beside it */
  readonly label: string
}

/** @param count how many of the 100 dots are full, whole, from 0 to 100 */
export function dotField(count: number, label = ''): DotField {
  const at = (k: number) => `M${(k % 10) * 10 + 5} ${Math.floor(k / 10) * 10 + 5}h0`
  return { full: Array.from({ length: count }, (_, k) => at(k)).join(''), label }
}

/** Lower bounds of levels 1 to 5, as probabilities. Closer at the low end, where suspicion is won or lost. */
const levelBounds = [0.03, 0.1, 0.2, 0.4, 0.65] as const

/** Density of hatching for a probability in [0, 1]; the same for a part and for a suspect's swatch. */
export function shadeLevel(probability: number): ShadeLevel {
  return levelBounds.filter((bound) => probability >= bound).length as ShadeLevel
}
