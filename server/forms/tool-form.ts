/** A tool's record as a form sends it, or a list: text into values, every mistake tied to its field. */
import type { Currency } from '../../shared/figures.js'
import { isDay } from '../../shared/day.js'
import type { Kind } from '../../shared/knowledge.js'
import type { NewTool, ToolDetails } from '../../shared/tool.js'
import { longestToolName, ToolPlace } from '../../shared/tool.js'
import { readAmount } from '../pages/layout/money.js'
import type { Problem } from './answer-form.js'

/** What may be told of a tool, in the order of form and list. */
export const toolFields = [
  'name',
  'kind',
  'place',
  'usedBy',
  'clientsADay',
  'volts',
  'hertz',
  'watts',
  'strokes',
  'serial',
  'bought',
  'price',
  'warrantyUntil',
  'blades',
] as const
export type ToolField = (typeof toolFields)[number]
export type ToolTexts = Readonly<Partial<Record<ToolField, string>>>

export const toolFieldWords: Readonly<Record<ToolField, string>> = {
  name: 'Name',
  kind: 'Kind',
  place: 'Where it is',
  usedBy: 'Who uses it',
  clientsADay: 'Clients a day',
  volts: 'Volts on the plate',
  hertz: 'Hertz on the plate',
  watts: 'Watts on the plate',
  strokes: 'Strokes a minute it should make',
  serial: 'Serial number',
  bought: 'Bought',
  price: 'Price',
  warrantyUntil: 'Warranty until',
  blades: 'Its blades',
}

export const placeWords: Readonly<Record<ToolPlace, string>> = {
  'in-use': 'In use',
  spare: 'Spare',
  away: 'Away for service',
  lent: 'Lent',
  retired: 'Retired',
}

const longestWords = 120

/** What was sent as a tool, or every problem with it. */
export function toolFrom(
  sent: ToolTexts,
  kinds: readonly Pick<Kind, 'id' | 'name' | 'plainName'>[],
  currency: Currency,
):
  | { readonly ok: true; readonly tool: NewTool }
  | { readonly ok: false; readonly problems: readonly Problem[] } {
  const problems: Problem[] = []
  const wrong = (field: ToolField, here: string): undefined => {
    problems.push({ field, message: `${toolFieldWords[field]}: ${here}`, here })
  }
  const text = (field: ToolField): string | undefined => {
    const it = sent[field]?.trim() ?? ''
    const most = field === 'name' ? longestToolName : longestWords
    if (it.length > most) return wrong(field, `use at most ${most} characters`)
    return it === '' ? undefined : it
  }
  const number = (field: ToolField, most: number): number | undefined => {
    const it = text(field)?.replace(',', '.')
    if (it === undefined) return undefined
    if (!/^\d{1,5}(\.\d{1,2})?$/.test(it) || Number(it) > most)
      return wrong(field, `enter a number from 0 to ${most}`)
    return Number(it)
  }
  const strokes = (): number | undefined => {
    const it = text('strokes')
    if (it === undefined) return undefined
    return strokesIn(it) ?? wrong('strokes', 'enter a whole number, such as 5800')
  }
  const date = (field: ToolField): string | undefined => {
    const it = text(field)
    if (it === undefined) return undefined
    if (!isDay(it)) return wrong(field, 'enter a day as year-month-day, such as 2026-03-02')
    return it
  }
  const amount = (field: ToolField): number | undefined => {
    const it = text(field)
    if (it === undefined) return undefined
    const read = readAmount(it, currency)
    return typeof read === 'number' ? read : wrong(field, read.wrong)
  }
  const name = text('name')
  // one that is too long has been told already
  if (name === undefined && problems.length === 0) wrong('name', 'give it a name, such as Chair 3')
  const kind = kindFrom(text('kind') ?? '', kinds)
  if (kind === undefined) wrong('kind', `use one of: ${kinds.map(({ id }) => id).join(', ')}`)
  const place = placeFrom(text('place') ?? 'in-use')
  if (place === undefined) wrong('place', `use one of: ${ToolPlace.options.join(', ')}`)
  const told = {
    volts: text('volts'),
    hertz: text('hertz'),
    watts: number('watts', 5000),
    strokes: strokes(),
    serial: text('serial'),
    bought: date('bought'),
    price: amount('price'),
    warrantyUntil: date('warrantyUntil'),
    usedBy: text('usedBy'),
    clientsADay: number('clientsADay', 80),
    blades: text('blades'),
  }
  if (problems.length > 0 || name === undefined || kind === undefined || place === undefined)
    return { ok: false, problems }
  const details = Object.fromEntries(
    Object.entries(told).filter(([, value]) => value !== undefined),
  ) as ToolDetails
  return { ok: true, tool: { name, kind, place, details } }
}

/** Strokes a minute as typed, with marks between thousands or without; undefined for anything else. */
export function strokesIn(text: string): number | undefined {
  const it = text.replaceAll(/[\s.,’']/g, '')
  return /^[1-9]\d{0,4}$/.test(it) ? Number(it) : undefined
}

const plain = (text: string): string =>
  text
    .trim()
    .toLocaleLowerCase('en')
    .replace(/[\s_]+/g, '-')

function kindFrom(
  text: string,
  kinds: readonly Pick<Kind, 'id' | 'name' | 'plainName'>[],
): string | undefined {
  return kinds.find(({ id, name, plainName }) => [id, name, plainName].map(plain).includes(plain(text)))?.id
}

function placeFrom(text: string): ToolPlace | undefined {
  return ToolPlace.options.find((place) => [place, plain(placeWords[place])].includes(plain(text)))
}
