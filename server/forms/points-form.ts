/** Points as a form sends them: read, and told what to put right. */
import type { Spread } from '../../shared/practice.js'
import { Spread as SpreadShape, stepOfPoints } from '../../shared/practice.js'
import type { Problem, Sent } from './answer-form.js'
import { textOf } from './answer-form.js'

export const pointsField = (cause: string): string => `p-${cause}`
export const otherField = 'other'

/** As they stand in the fields, whatever their sum; what is no number of points is left out. */
export interface Points {
  readonly points: Readonly<Record<string, number>>
  readonly other: number
}

const isPoints = (text: string): boolean =>
  /^\d{1,3}$/.test(text) && Number(text) <= 100 && Number(text) % stepOfPoints === 0

/** @param suspects ids of the causes that points can go to */
export function pointsSent(sent: Sent, suspects: readonly string[]): Points {
  const of = (field: string) => (isPoints(textOf(sent, field)) ? Number(textOf(sent, field)) : 0)
  const points = suspects.map((id) => [id, of(pointsField(id))] as const).filter(([, given]) => given > 0)
  return { points: Object.fromEntries(points), other: of(otherField) }
}

/** Up to three suspects, and how sure of each, as an apprentice says it. */
export const pickPlaces = [1, 2, 3] as const
export const pickField = (place: number): string => `pick-${place}`
export const sureField = (place: number): string => `sure-${place}`

/** How sure, in points of 100. Nobody is ever quite sure: the rest is for something else. */
export const sureness = [
  { id: 'maybe', name: 'Maybe', points: 30 },
  { id: 'likely', name: 'Likely', points: 60 },
  { id: 'nearly-sure', name: 'Nearly sure', points: 90 },
] as const
const mostInAll = 90

/** How sure somebody was by their points, where these may have been scaled down. */
export const surenessOf = (points: number): (typeof sureness)[number] =>
  sureness[points >= 70 ? 2 : points >= 40 ? 1 : 0]

/** The points that picks stand for; too many in all are scaled down to whole steps (Hamilton's method). */
function pointsPicked(sent: Sent, suspects: readonly string[]): Points {
  const picked = pickPlaces.flatMap((place) => {
    const cause = textOf(sent, pickField(place))
    const sure = sureness.find(({ id }) => id === textOf(sent, sureField(place))) ?? sureness[0]
    return suspects.includes(cause) ? [[cause, sure.points] as const] : []
  })
  const wanted = new Map(picked)
  const sum = [...wanted.values()].reduce((all, it) => all + it, 0)
  const scale = Math.min(1, mostInAll / sum) / stepOfPoints
  const shares = [...wanted].map(([id, it]) => ({
    id,
    share: it * scale,
    whole: Math.floor(it * scale + 1e-9),
  }))
  let left = Math.round(sum * scale) - shares.reduce((all, { whole }) => all + whole, 0)
  for (const it of [...shares].sort((a, b) => b.share - b.whole - (a.share - a.whole)))
    if (left-- > 0) it.whole++
  const points = Object.fromEntries(
    shares.filter(({ whole }) => whole > 0).map(({ id, whole }) => [id, whole * stepOfPoints]),
  )
  return { points, other: 100 - Object.values(points).reduce((all, it) => all + it, 0) }
}

const sumOf = ({ points, other }: Points): number =>
  Object.values(points).reduce((sum, given) => sum + given, other)

/** "60 given, 40 left." */
export function sumWords(points: Points): string {
  const sum = sumOf(points)
  if (sum > 100) return `${sum} given, ${sum - 100} too many.`
  return sum === 100 ? 'All 100 given.' : `${sum} given, ${100 - sum} left.`
}

export function spreadFrom(
  sent: Sent,
  suspects: readonly string[],
):
  | { readonly ok: true; readonly spread: Spread }
  | { readonly ok: false; readonly problems: readonly Problem[] } {
  if (pickPlaces.some((place) => sent[pickField(place)] !== undefined)) {
    const first = pickPlaces.find((place) => !['', ...suspects].includes(textOf(sent, pickField(place))))
    return first === undefined
      ? { ok: true, spread: pointsPicked(sent, suspects) }
      : wrong(
          pickField(first),
          'That suspect is not in the rulebook; it may have been changed since. Pick again',
        )
  }
  const fields = Object.keys(sent).filter((name) => name.startsWith('p-') || name === otherField)
  const known = new Set([...suspects.map(pointsField), otherField])
  const odd = fields.find(
    (name) => known.has(name) && textOf(sent, name) !== '' && !isPoints(textOf(sent, name)),
  )
  if (odd !== undefined) return wrong(odd, `Give points in steps of ${stepOfPoints}, from 0 to 100`)
  if (fields.some((name) => !known.has(name)))
    return wrong(
      otherField,
      'One of these suspects is not in the rulebook; it may have been changed since. Spread the points again',
    )
  const points = pointsSent(sent, suspects)
  const read = SpreadShape.safeParse(points)
  if (read.success) return { ok: true, spread: read.data }
  const first = Object.keys(points.points)[0]
  return wrong(
    first === undefined ? otherField : pointsField(first),
    `The points must come to 100 in all. ${sumWords(points)}`,
  )
}

const wrong = (field: string, message: string) => ({ ok: false as const, problems: [{ field, message }] })
