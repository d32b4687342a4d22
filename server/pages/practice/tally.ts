/** Minutes as strokes, bundled by five as on a slate. */
export interface Tally {
  readonly path: string
  readonly width: number
  readonly viewBox: string
}

const step = 6
const gap = 7
const height = 20
/** More than this no eye counts; the words beside it say how many. */
const mostStrokes = 25

/** @returns null where it comes to no whole minute */
export function tallyOf(minutes: number): Tally | null {
  const strokes = Math.min(mostStrokes, Math.round(minutes))
  if (strokes < 1) return null
  let x = 3
  let path = ''
  for (let k = 1; k <= strokes; k++) {
    if (k % 5 === 0) {
      path += `M${x - 4 * step - 1} ${height - 4}L${x - 2} 4`
      x += gap
    } else {
      path += `M${x} 3V${height - 3}`
      x += step
    }
  }
  const width = x + 2
  return { path, width, viewBox: `0 0 ${width} ${height}` }
}
