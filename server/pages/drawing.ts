/** Page models of the drawings: which exist, how dense a part is hatched, where its label stands. */
import type { Kind } from '../../shared/knowledge.js'

/** Density of hatching: 0 bare paper (hardly suspected) to 5 nearly solid. */
export type ShadeLevel = 0 | 1 | 2 | 3 | 4 | 5

/** A label with its leader line, in the drawing's own units. */
export interface DrawingLabel {
  readonly text: string
  readonly x: number
  readonly y: number
  readonly anchor: 'start' | 'middle' | 'end'
  readonly anchorX: number
  readonly anchorY: number
  /** the leader line as SVG path data */
  readonly path: string
}

/** What `partials/drawings/clipper` needs. */
export interface ClipperDrawing {
  readonly alt: string
  /** as SVG has it; without room for a row of labels that is empty */
  readonly viewBox: string
  readonly shades: Readonly<Record<string, ShadeLevel>>
  readonly labels: readonly DrawingLabel[]
}

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

/** Line drawings with one text alternative and nothing else; each is `partials/drawings/<id>`. */
export const drawingIds: ReadonlySet<string> = new Set([
  'ball-oiler',
  'blade-fit',
  'brush-pair',
  'commutator',
  'cord-flex',
  'drive-lever',
  'gear',
  'glass',
  'hand-turn',
  'meter',
  'oil-points',
  'plug',
  'second-tool',
  'teeth',
  'tissue',
  'universal-motor',
  'vents',
])

/** Lower bounds of levels 1 to 5, as probabilities. Closer at the low end, where suspicion is won or lost. */
const levelBounds = [0.03, 0.1, 0.2, 0.4, 0.65] as const

/** Density of hatching for a probability in [0, 1]; the same for a part and for a suspect's swatch. */
export function shadeLevel(probability: number): ShadeLevel {
  return levelBounds.filter((bound) => probability >= bound).length as ShadeLevel
}

interface Anchor {
  readonly x: number
  readonly y: number
  readonly side: 'above' | 'below'
  readonly text: string
}

/** Where a leader touches each part of `partials/drawings/clipper`, and a name short enough for a phone. */
const anchors: Readonly<Record<string, Anchor>> = {
  blade: { x: 60, y: 112, side: 'above', text: 'Blade' },
  hinge: { x: 90, y: 184, side: 'below', text: 'Hinge' },
  'drive-lever': { x: 114, y: 150, side: 'below', text: 'Lever' },
  gears: { x: 146, y: 128, side: 'above', text: 'Gears' },
  bearing: { x: 188, y: 150, side: 'above', text: 'Bearing' },
  handling: { x: 178, y: 228, side: 'below', text: 'Handling' },
  motor: { x: 238, y: 192, side: 'below', text: 'Motor' },
  commutator: { x: 292, y: 150, side: 'below', text: 'Commutator' },
  brushes: { x: 292, y: 86, side: 'above', text: 'Brushes' },
  'fan-and-vents': { x: 314, y: 140, side: 'above', text: 'Fan, vents' },
  switch: { x: 346, y: 113, side: 'above', text: 'Switch' },
  wiring: { x: 340, y: 188, side: 'below', text: 'Wiring' },
  body: { x: 366, y: 206, side: 'below', text: 'Body' },
  cord: { x: 452, y: 90, side: 'above', text: 'Cord' },
  plug: { x: 471, y: 184, side: 'below', text: 'Plug' },
  outlet: { x: 446, y: 238, side: 'below', text: 'Outlet' },
}

/** The drawing's own units, chosen so that 26 of them are readable type on a 360 px screen. */
const width = 520
/** From the fingertips to the thumb, and the same with a row of labels above or below. */
const extent = { labelTop: 0, top: 46, bottom: 258, labelBottom: 302 } as const
const letterWidth = 17
const labelGap = 18
const labelBaseline = { above: 26, below: 290 } as const
const leaderEnd = { above: 33, below: 268 } as const

/**
 * The clipper with its parts hatched by suspicion, the likeliest three labelled.
 *
 * @param suspicion for a part id, the largest probability of its causes, in [0, 1]; a part left out counts as 0
 * @param parts     the kind's parts, for names and order
 */
export function clipperDrawing(suspicion: ReadonlyMap<string, number>, parts: Kind['parts']): ClipperDrawing {
  const shades = Object.fromEntries(parts.map(({ id }) => [id, shadeLevel(suspicion.get(id) ?? 0)]))
  const likeliest = parts
    .map((part) => ({ ...part, probability: suspicion.get(part.id) ?? 0 }))
    .filter(({ probability }) => shadeLevel(probability) > 0)
    .sort((a, b) => b.probability - a.probability)
    .slice(0, 3)
  const shown = likeliest.flatMap(({ id }) => anchors[id] ?? [])
  const above = spread(shown, 'above')
  const below = spread(shown, 'below')
  const top = above.length > 0 ? extent.labelTop : extent.top
  const bottom = below.length > 0 ? extent.labelBottom : extent.bottom
  return {
    alt: alternative(likeliest),
    viewBox: `0 ${top} ${width} ${bottom - top}`,
    shades,
    labels: [...above, ...below],
  }
}

function alternative(likeliest: readonly { readonly name: string; readonly probability: number }[]): string {
  if (likeliest.length === 0) return 'Line drawing of the clipper from above. No part stands out yet.'
  const told = likeliest.map(({ name, probability }) => `${name}, ${inHundred(probability)} in 100`)
  return `Line drawing of the clipper from above, hatched where trouble is suspected. Most suspected: ${told.join('; ')}.`
}

function inHundred(probability: number): number {
  return Math.round(probability * 100)
}

/** Sets the labels of one side in a row, each as near above or below its part as its neighbours allow. */
function spread(shown: readonly Anchor[], side: Anchor['side']): DrawingLabel[] {
  const row = shown.filter((anchor) => anchor.side === side).sort((a, b) => a.x - b.x)
  const halves = row.map(({ text }) => (text.length * letterWidth) / 2)
  const centres = row.map(({ x }, i) => Math.min(Math.max(x, halves[i]!), width - halves[i]!))
  // From the left push a label clear of the one before it, then from the right pull back what ran off the edge.
  for (let i = 1; i < row.length; i++) {
    centres[i] = Math.max(centres[i]!, centres[i - 1]! + halves[i - 1]! + halves[i]! + labelGap)
  }
  let limit = width
  for (let i = row.length - 1; i >= 0; i--) {
    centres[i] = Math.min(centres[i]!, limit - halves[i]!)
    limit = centres[i]! - halves[i]! - labelGap
  }
  return row.map(({ x, y, text }, i) => ({
    text,
    x: Math.round(centres[i]!),
    y: labelBaseline[side],
    anchor: 'middle',
    anchorX: x,
    anchorY: y,
    path: `M${x} ${y}L${Math.round(centres[i]!)} ${leaderEnd[side]}`,
  }))
}
