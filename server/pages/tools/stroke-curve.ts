/** A tool's strokes over the months, as drawn: wear shows here before it fails. */
import type { Knowledge } from '../../../shared/knowledge.js'
import type { PastCase } from '../../tools/tool-life.js'
import { dayWords } from './tool-words.js'

export interface StrokeCurve {
  /** of the line, in the drawing's units */
  readonly path: string
  readonly points: readonly { readonly x: number; readonly y: number; readonly words: string }[]
  /** where 100 in 100 lies */
  readonly full: number
  readonly words: string
}

const [left, wide, top, tall] = [8, 312, 8, 60]

/**
 * Strokes a minute in percent of what the tool should make, one reading a case, oldest first.
 *
 * @returns null with fewer than two readings: one is no curve
 */
export function strokeCurve(knowledge: Knowledge, cases: readonly PastCase[]): StrokeCurve | null {
  const rates = new Set(
    knowledge.steps.flatMap(({ questions }) =>
      questions.flatMap(({ id, heard }) => (heard?.what === 'rate' ? [id] : [])),
    ),
  )
  const readings = cases
    .flatMap(({ begunAt, readings }) => {
      const last = readings.findLast(({ question }) => rates.has(question))
      return last ? [{ at: Date.parse(begunAt), day: begunAt.slice(0, 10), percent: last.value }] : []
    })
    .sort((a, b) => a.at - b.at)
  const [first, last] = [readings[0], readings.at(-1)]
  if (!first || !last || readings.length < 2) return null
  const values = readings.map(({ percent }) => percent)
  const [low, high] = [Math.min(80, ...values), Math.max(105, ...values)]
  const y = (percent: number) => Math.round(top + (tall * (high - percent)) / (high - low))
  const points = readings.map(({ at, day, percent }) => ({
    x: Math.round(left + (wide * (at - first.at)) / Math.max(1, last.at - first.at)),
    y: y(percent),
    words: `${dayWords(day)}: ${Math.round(percent)} in 100`,
  }))
  return {
    path: points.map(({ x, y }, i) => `${i === 0 ? 'M' : 'L'}${x} ${y}`).join(''),
    points,
    full: y(100),
    words: `Strokes, of 100 that it should make: ${Math.round(first.percent)} on ${dayWords(first.day)}, ${Math.round(last.percent)} on ${dayWords(last.day)}.`,
  }
}
