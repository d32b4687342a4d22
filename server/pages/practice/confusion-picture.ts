/**
 * The confusion picture of one kind: a row for each cause that was there, a column for each that got points, hatched
 * the denser the more points went there. Drawn on the server; the same stands in a table.
 */
import type { Knowledge } from '../../../shared/knowledge.js'
import type { MixUpRow } from '../../practice/mastery.js'
import { shadeLevel } from '../layout/drawing.js'
import { causeName } from './move-words.js'
import { counted } from '../layout/words.js'

/** A finished drawing: all that its view has to print. Numbers are units of the drawing. */
export interface ConfusionPicture {
  readonly alt: string
  readonly viewBox: string
  readonly heads: readonly { readonly x: number; readonly y: number; readonly text: string }[]
  readonly rows: readonly {
    readonly mark: string
    readonly name: string
    readonly labelY: number
    readonly cells: readonly Cell[]
  }[]
  readonly side: number
  /** columns that no row has the name of */
  readonly key: readonly { readonly mark: string; readonly name: string }[]
  readonly table: {
    readonly columns: readonly string[]
    readonly rows: readonly { readonly name: string; readonly cells: readonly string[] }[]
  }
  /** what is not drawn, in a sentence; empty when all is */
  readonly leftOut: string
}

interface Cell {
  readonly x: number
  readonly y: number
  readonly level: number
  /** the points are where they belong */
  readonly right: boolean
}

/** Units; on a phone one is about a pixel. */
const width = 320
/** room for half a line at both sides */
const edge = 2
const headHeight = 26
const labelHeight = 24
const gap = 8
const largestSide = 34

/** Rows and named columns that a phone has room for. */
const mostRows = 8
const mostCauses = 9

/** Points of a row that did not go to what was there; mean of 100. */
export const astray = ({ cause, points }: MixUpRow): number => 100 - (points[cause] ?? 0)

/** @returns null where no points went astray */
export function confusionPicture(
  knowledge: Knowledge,
  kind: string,
  rows: readonly MixUpRow[],
  timesOf: (cause: string) => number,
): ConfusionPicture | null {
  const missed = rows
    .filter((row) => astray(row) > 0)
    .sort((a, b) => b.weight * astray(b) - a.weight * astray(a))
  if (missed.length === 0) return null
  const drawn = missed.slice(0, mostRows)
  const { named, pooled } = columnsOf(drawn)
  const marks = new Map(named.map((cause, place) => [cause, String(place + 1)]))
  const name = (cause: string) => causeName(knowledge, kind, cause)
  const columns: readonly Column[] = [
    ...named.map((cause) => ({
      mark: marks.get(cause)!,
      name: name(cause),
      cause,
      of: (row: MixUpRow) => row.points[cause] ?? 0,
    })),
    ...(pooled.length > 0
      ? [
          {
            mark: '+',
            name: 'any other',
            of: (row: MixUpRow) => sumOf(pooled.map((id) => row.points[id] ?? 0)),
          },
        ]
      : []),
    { mark: '?', name: 'something else', of: (row: MixUpRow) => row.other },
  ]
  const side = Math.min(largestSide, Math.floor((width - 2 * edge) / columns.length))
  const rowHeight = labelHeight + side + gap
  return {
    alt: altOf(drawn, columns, name),
    viewBox: `0 0 ${width} ${headHeight + drawn.length * rowHeight}`,
    side,
    heads: columns.map(({ mark }, place) => ({ x: edge + place * side + side / 2, y: 17, text: mark })),
    rows: drawn.map((row, place) => {
      const top = headHeight + place * rowHeight
      return {
        mark: marks.get(row.cause)!,
        name: shortened(name(row.cause)),
        labelY: top + 16,
        cells: columns.map((column, k) => ({
          x: edge + k * side,
          y: top + labelHeight,
          level: shadeLevel(column.of(row) / 100),
          right: column.cause === row.cause,
        })),
      }
    }),
    key: columns.slice(drawn.length).map(({ mark, name }) => ({ mark, name })),
    table: tableOf(missed, name, timesOf),
    leftOut:
      missed.length > drawn.length
        ? `Drawn are the ${drawn.length} with the most points astray; the table has all ${missed.length}.`
        : '',
  }
}

interface Column {
  readonly mark: string
  readonly name: string
  readonly cause?: string
  readonly of: (row: MixUpRow) => number
}

const sumOf = (values: readonly number[]): number => values.reduce((sum, it) => sum + it, 0)

/** The causes of the rows in their order, so that what is right lies on the slope; then whoever got points. */
function columnsOf(rows: readonly MixUpRow[]): { named: string[]; pooled: string[] } {
  const own = rows.map(({ cause }) => cause)
  const got = new Map<string, number>()
  for (const { weight, points } of rows)
    for (const [id, mean] of Object.entries(points))
      if (!own.includes(id) && mean > 0) got.set(id, (got.get(id) ?? 0) + weight * mean)
  const others = [...got].sort(([, a], [, b]) => b - a).map(([id]) => id)
  // one more column is no narrower than one for all that are left
  const room = Math.max(0, mostCauses - own.length)
  const cut = others.length === room + 1 ? room + 1 : room
  return { named: [...own, ...others.slice(0, cut)], pooled: others.slice(cut) }
}

function tableOf(
  rows: readonly MixUpRow[],
  name: (cause: string) => string,
  timesOf: (cause: string) => number,
): ConfusionPicture['table'] {
  return {
    columns: ['It was', 'On it', 'Astray'],
    rows: rows.map((row) => ({
      name: `${name(row.cause)} (${counted(timesOf(row.cause), 'time')})`,
      cells: [
        whole(row.points[row.cause] ?? 0),
        [
          ...othersOf(row).map(([id, points]) => [name(id), points] as const),
          ['something else', row.other] as const,
        ]
          .filter(([, points]) => points > 0)
          .map(([taken, points]) => `${taken} ${whole(points)}`)
          .join(', '),
      ],
    })),
  }
}

/** Whoever else got points, most first. */
export const othersOf = ({ cause, points }: MixUpRow): [string, number][] =>
  Object.entries(points)
    .filter(([id, mean]) => id !== cause && mean > 0)
    .sort(([, a], [, b]) => b - a)

/** Means of steps of ten, without what lies behind the comma. */
const whole = (points: number): string => (points > 0 && points < 1 ? 'under 1' : String(Math.round(points)))

function altOf(
  rows: readonly MixUpRow[],
  columns: readonly Column[],
  name: (cause: string) => string,
): string {
  const said = rows.map((row) => {
    const to = columns
      .filter((column) => column.of(row) > 0)
      .map((column) => `${column.cause === row.cause ? 'right' : column.name} ${whole(column.of(row))}`)
    return `${name(row.cause)}: ${to.join(', ')}`
  })
  return `Where your points went, of 100. ${said.join('. ')}.`
}

/** What fits beside its mark in one line of the drawing. */
const fits = 37
const shortened = (name: string): string =>
  name.length <= fits ? name : `${name.slice(0, fits - 1).trimEnd()}…`
