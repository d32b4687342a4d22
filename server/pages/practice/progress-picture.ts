/** A learner's exercises one after the other: a nail for each, as long as its points or its lost minutes. */

export interface ProgressPicture {
  readonly alt: string
  readonly viewBox: string
  /** top to bottom */
  readonly lines: readonly { readonly y: number; readonly words: string }[]
  readonly left: number
  readonly right: number
  readonly base: number
  readonly nails: readonly {
    readonly x: number
    readonly y: number
    readonly radius: number
    /** nothing to show: no points were spread, or it is not worked out yet */
    readonly open: boolean
    /** a slip stopped the exercise */
    readonly slip: boolean
    readonly cross: string
  }[]
}

export interface Nail {
  /** undefined where there is none */
  readonly value: number | undefined
  readonly slip: boolean
}

/** Units of the drawing. */
const width = 320
const height = 132
const left = 40
const right = 314
const top = 14
const base = 116

/**
 * @param nails oldest first, one at least
 * @param most  what the upper line stands for
 * @param words what is written at a line
 */
export function progressPicture(
  nails: readonly Nail[],
  most: number,
  alt: string,
  words: (value: number) => string,
): ProgressPicture {
  const step = Math.min(28, (right - left - 8) / nails.length)
  const radius = Math.max(1.8, Math.min(6, step * 0.36))
  const y = (value: number) => rounded(base - ((base - top) * Math.min(value, most)) / most)
  return {
    alt,
    viewBox: `0 0 ${width} ${height}`,
    lines: [most, most / 2, 0].map((value) => ({ y: y(value), words: words(value) })),
    left,
    right,
    base,
    nails: nails.map(({ value, slip }, place) => {
      const x = rounded(left + 8 + step * (place + 0.5))
      const arm = rounded(radius + 1)
      return {
        x,
        y: y(value ?? 0),
        radius: rounded(radius),
        open: value === undefined,
        slip,
        cross: `M${rounded(x - arm)} ${rounded(base + 8 - arm)}l${2 * arm} ${2 * arm}m0 ${-2 * arm}l${-2 * arm} ${2 * arm}`,
      }
    }),
  }
}

const rounded = (value: number): number => Math.round(value * 10) / 10

/** The least round number of minutes above all. */
export function roundMinutes(most: number): number {
  const steps = [10, 20, 30, 60, 90, 120, 180, 240, 480]
  return steps.find((step) => step >= most) ?? Math.ceil(most / 480) * 480
}
