import { drawingIds } from './drawing-files.js'

/** A line drawing beside some words, by the name of its file. */
export interface Drawing {
  readonly id: string
  readonly alt: string
}

/** The drawing `id` if there is one; a rulebook may name drawings that nobody has made yet. */
export function lineDrawing(id: string | undefined, what: string): Drawing | null {
  return id !== undefined && drawingIds.has(id) ? { id, alt: `Drawing: ${what}` } : null
}
