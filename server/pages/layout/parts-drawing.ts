/** Page model of the tool cut open: which part is hatched how densely, and where the labels stand. */
import type { Kind } from '../../../shared/knowledge.js'
import type { PartPlace } from '../../../shared/part-places.js'
import type { ShadeLevel } from './drawing.js'
import { shadeLevel } from './drawing.js'
import { partPlaces } from './drawing-files.js'

/** A label with its leader line, in the drawing's own units. */
interface DrawingLabel {
  readonly text: string
  readonly x: number
  readonly y: number
  readonly anchorX: number
  readonly anchorY: number
  /** the leader line as SVG path data */
  readonly path: string
}

/** What `partials/parts-drawing` needs. */
export interface PartsDrawing {
  /** name of the drawing in the folder of parts drawings */
  readonly id: string
  readonly alt: string
  /** as SVG has it; without room for a row of labels that is empty */
  readonly viewBox: string
  readonly shades: Readonly<Record<string, ShadeLevel>>
  readonly labels: readonly DrawingLabel[]
}

/** The drawing's own units, chosen so that 26 of them are readable type on a 360 px screen. */
const width = 520
/** From the fingertips to the thumb, and the same with a row of labels above or below. */
const extent = { labelTop: 0, top: 46, bottom: 258, labelBottom: 302 } as const
const letterWidth = 17
const labelGap = 18
/** room at either end of a row for letters wider than the average */
const rowMargin = 6
const labelBaseline = { above: 26, below: 290 } as const
const leaderEnd = { above: 33, below: 268 } as const

/**
 * The tool with its parts hatched by suspicion, the likeliest three labelled.
 *
 * @param kind      its parts give names and order, its drawing the picture
 * @param suspicion for a part id, the largest probability of its causes, in [0, 1]; a part left out counts as 0
 * @returns null for a kind whose parts nobody has drawn
 */
export function partsDrawing(
  kind: Pick<Kind, 'drawing' | 'parts'>,
  suspicion: ReadonlyMap<string, number>,
): PartsDrawing | null {
  const likeliest = kind.parts
    .map((part) => ({ ...part, probability: suspicion.get(part.id) ?? 0 }))
    .filter(({ probability }) => shadeLevel(probability) > 0)
    .sort((a, b) => b.probability - a.probability)
    .slice(0, 3)
  const shades = kind.parts.map(({ id }) => [id, shadeLevel(suspicion.get(id) ?? 0)] as const)
  return drawn(kind, Object.fromEntries(shades), likeliest, suspected(likeliest))
}

/**
 * The tool with the named parts hatched alike: where a hand has to go. The first three are labelled.
 *
 * @returns null for a kind whose parts nobody has drawn, and where none of its parts is named
 */
export function partsMarked(
  kind: Pick<Kind, 'drawing' | 'parts'>,
  marked: ReadonlySet<string>,
): PartsDrawing | null {
  const here = kind.parts.filter(({ id }) => marked.has(id))
  if (here.length === 0) return null
  const names = here.map(({ name }) => name).join('; ')
  const shades = kind.parts.map(({ id }) => [id, marked.has(id) ? markedLevel : 0] as const)
  return drawn(
    kind,
    Object.fromEntries(shades),
    here.slice(0, 3),
    `Line drawing of the tool, cut open. Here: ${names}.`,
  )
}

/** Plain hatching, dense enough to stand out. */
const markedLevel = 3

function drawn(
  { drawing, parts }: Pick<Kind, 'drawing' | 'parts'>,
  shades: PartsDrawing['shades'],
  labelled: Kind['parts'],
  alt: string,
): PartsDrawing | null {
  const places = partPlaces.get(drawing)
  if (!places || parts.some(({ id }) => !places[id])) return null
  const shown = labelled.flatMap(({ id }) => places[id] ?? [])
  const above = spread(shown, 'above')
  const below = spread(shown, 'below')
  const top = above.length > 0 ? extent.labelTop : extent.top
  const bottom = below.length > 0 ? extent.labelBottom : extent.bottom
  // A drawing may show a part that the kind does not list; it stays bare.
  const bare = Object.fromEntries(Object.keys(places).map((id) => [id, 0 as const]))
  return {
    id: drawing,
    alt,
    viewBox: `0 ${top} ${width} ${bottom - top}`,
    shades: { ...bare, ...shades },
    labels: [...above, ...below],
  }
}

function suspected(likeliest: readonly { readonly name: string; readonly probability: number }[]): string {
  if (likeliest.length === 0) return 'Line drawing of the tool, cut open. No part stands out yet.'
  const told = likeliest.map(({ name, probability }) => `${name}, ${Math.round(probability * 100)} in 100`)
  return `Line drawing of the tool, cut open, hatched where trouble is suspected. Most suspected: ${told.join('; ')}.`
}

/** Sets the labels of one side in a row, each as near above or below its part as its neighbours allow. */
function spread(shown: readonly PartPlace[], side: PartPlace['side']): DrawingLabel[] {
  const row = shown.filter((place) => place.side === side).sort((a, b) => a.x - b.x)
  const halves = row.map(({ label }) => (label.length * letterWidth) / 2)
  const centres = row.map(({ x }, i) =>
    Math.min(Math.max(x, rowMargin + halves[i]!), width - rowMargin - halves[i]!),
  )
  // From the left push a label clear of the one before it, then from the right pull back what ran off the edge.
  for (let i = 1; i < row.length; i++) {
    centres[i] = Math.max(centres[i]!, centres[i - 1]! + halves[i - 1]! + halves[i]! + labelGap)
  }
  let limit = width - rowMargin
  for (let i = row.length - 1; i >= 0; i--) {
    centres[i] = Math.min(centres[i]!, limit - halves[i]!)
    limit = centres[i]! - halves[i]! - labelGap
  }
  return row.map(({ x, y, label }, i) => ({
    text: label,
    x: Math.round(centres[i]!),
    y: labelBaseline[side],
    anchorX: x,
    anchorY: y,
    path: `M${x} ${y}L${Math.round(centres[i]!)} ${leaderEnd[side]}`,
  }))
}
