/** A form of figures: how it is shown, and how what was sent is read. An empty field gives a figure back. */
import type { Currency, FigureName, Figures, SomeFigures } from '../../shared/figures.js'
import { FigureName as FigureNames } from '../../shared/figures.js'
import type { Problem, Sent } from './answer-form.js'
import { textOf } from './answer-form.js'
import type { ChoiceField, FigureField, NumberField, RangeField } from './figure-fields.js'
import { amountText, readAmount } from '../pages/layout/money.js'

/** What a form stands on: the figures that are set, and those that hold where none is. */
export interface Ground {
  readonly currency: Currency
  readonly own: SomeFigures
  readonly otherwise: Figures
}

export interface FieldView {
  readonly id: string
  readonly words: string
  readonly hint: string
  /** one box, or two for a range; none for a choice */
  readonly boxes: readonly {
    readonly name: string
    readonly label: string
    readonly value: string
    readonly wrong: boolean
  }[]
  readonly unit: string
  readonly choices: readonly {
    readonly value: string
    readonly words: string
    readonly hint: string
    readonly chosen: boolean
  }[]
  /** what holds while nobody has set it: "Usual: 0.80", or that this is it */
  readonly usual: string
  readonly problem: string | null
}

/** @param sent what a refused form held, to be put right; null shows the figures as they are */
export function fieldView(
  field: FigureField,
  { currency, own, otherwise }: Ground,
  sent: Sent | null,
  problems: readonly Problem[],
): FieldView {
  const names = namesOf(field)
  const isOwn = names.some((name) => own[name] !== undefined)
  const textNow = (name: FigureName) =>
    sent ? textOf(sent, name) : textFor(field, own[name] ?? otherwise[name], currency)
  const usual = [...new Set(names.map((name) => textFor(field, otherwise[name], currency)))].join(' to ')
  const problem = problems.find((it) => names.some((name) => name === it.field))
  const common = {
    id: names[0]!,
    words: field.words,
    hint: field.hint,
    problem: problem ? (problem.here ?? problem.message) : null,
  }
  if (field.sort === 'choice') {
    const choices = field.choices.map(({ value, words, hint, means }) => ({
      value,
      words,
      hint,
      chosen: sent
        ? value === textOf(sent, field.name)
        : means === (own[field.name] ?? otherwise[field.name]),
    }))
    return { ...common, boxes: [], unit: '', choices, usual: '' }
  }
  const label = (name: FigureName) => (names.length === 1 ? field.words : name === names[0] ? 'from' : 'to')
  return {
    ...common,
    boxes: names.map((name) => ({
      name,
      label: label(name),
      value: textNow(name),
      wrong: problems.some((it) => it.field === name),
    })),
    unit: field.sort === 'amount' ? `${currency.code} ${field.unit}` : field.unit,
    choices: [],
    usual: isOwn ? `Left empty: ${usual}, as is usual.` : 'This is the usual; nobody has set it yet.',
  }
}

export const namesOf = (field: FigureField): readonly FigureName[] =>
  'low' in field ? [field.low, field.high] : [field.name]

function textFor(field: FigureField, value: Figures[FigureName], currency: Currency): string {
  if (typeof value !== 'number') return ''
  if (field.sort === 'amount') return amountText(value, currency)
  return String(field.sort === 'percent' ? Math.round(value * 1000) / 10 : value)
}

export type ReadFigures =
  | { readonly ok: true; readonly figures: SomeFigures }
  | { readonly ok: false; readonly problems: readonly Problem[] }

/**
 * The figures of a form, or every problem with them.
 *
 * A figure that is not in the form stays as it is set. One that is sent as it holds anyway stays unset.
 */
export function figuresFrom(fields: readonly FigureField[], sent: Sent, ground: Ground): ReadFigures {
  const problems: Problem[] = []
  const read = new Map<FigureName, unknown>(Object.entries(ground.own) as [FigureName, unknown][])
  for (const field of fields) {
    const values = readField(field, sent, ground, problems)
    for (const [name, value] of values) {
      const stays = value === ground.otherwise[name] && ground.own[name] === undefined
      if (value === undefined || stays) read.delete(name)
      else read.set(name, value)
    }
  }
  if (problems.length > 0) return { ok: false, problems }
  const inOrder = FigureNames.options.flatMap((name) => (read.has(name) ? [[name, read.get(name)]] : []))
  return { ok: true, figures: Object.fromEntries(inOrder) as SomeFigures }
}

type Read = readonly (readonly [FigureName, number | SomeFigures[FigureName] | undefined])[]

function readField(field: FigureField, sent: Sent, ground: Ground, problems: Problem[]): Read {
  if (field.sort === 'choice') return readChoice(field, sent, problems)
  const values = namesOf(field).map((name) => {
    const text = textOf(sent, name)
    if (text === '') return undefined
    const value = readNumber(field, text, ground.currency, newPriceIn(sent, ground))
    if (typeof value === 'number') return value
    problems.push({ field: name, message: `${field.words}: ${value.wrong}`, here: sentence(value.wrong) })
    return undefined
  })
  if (!('low' in field)) return [[field.name, values[0]]]
  const [low, high] = values
  if (low !== undefined && high !== undefined && low > high) {
    const wrong = 'the first number is larger than the second'
    problems.push({ field: field.low, message: `${field.words}: ${wrong}`, here: sentence(wrong) })
  }
  // one end alone is a fixed price
  return [
    [field.low, low ?? high],
    [field.high, high ?? low],
  ]
}

/** What a new tool costs by this form, in minor units; else by what holds. */
function newPriceIn(sent: Sent, { currency, own, otherwise }: Ground): number {
  const typed = readAmount(textOf(sent, 'newPrice'), currency)
  return typeof typed === 'number' ? typed : (own.newPrice ?? otherwise.newPrice)
}

function readChoice({ name, words, choices }: ChoiceField, sent: Sent, problems: Problem[]): Read {
  const chosen = choices.find(({ value }) => value === textOf(sent, name))
  if (chosen) return [[name, chosen.means]]
  problems.push({ field: name, message: `Choose an answer: ${words}`, here: 'Choose one of these' })
  return []
}

function readNumber(
  { sort, least, most }: NumberField | RangeField,
  text: string,
  currency: Currency,
  newPrice: number,
): number | { readonly wrong: string } {
  if (sort === 'amount') {
    const sum = readAmount(text, currency)
    // of a new one that costs nothing there is no measure to be had
    if (typeof sum !== 'number' || newPrice === 0 || sum <= most * newPrice) return sum
    return { wrong: `enter at most ${amountText(most * newPrice, currency)}, ${newOnes(most)}` }
  }
  const value = Number(text.replace(',', '.'))
  if (!/^\d{1,5}([.,]\d{1,4})?$/.test(text) || value < least || value > most)
    return { wrong: `enter a number from ${least} to ${most}` }
  return sort === 'percent' ? Math.round(value * 1e4) / 1e6 : value
}

const newOnes = (count: number): string =>
  count === 1 ? 'the price of a new one' : `the price of ${count} new ones`

const sentence = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1)
