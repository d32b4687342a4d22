import type { Currency } from '../../../shared/figures.js'
import type { Knowledge } from '../../../shared/knowledge.js'
import type { PartDetails } from '../../../shared/part.js'
import { meanOf } from '../../parts/base-stock.js'
import type { Kept } from '../../parts/demand.js'
import type { Problem, Sent } from '../../forms/answer-form.js'
import { textOf, textsOf } from '../../forms/answer-form.js'
import type { Frame } from '../layout/frame.js'
import { plainFrame } from '../layout/frame.js'
import { amountText, readAmount } from '../layout/money.js'
import { inHundred } from '../layout/words.js'
import { writtenLines } from '../layout/written-words.js'
import type { Written } from '../../../shared/person.js'
import { countWords } from './part-words.js'

/** One part: how many, how many to keep and why; to count, to change. Also the form for a new one. */
export interface PartPage {
  readonly frame: Frame
  readonly title: string
  readonly action: string
  /** null for a new one */
  readonly stock: {
    readonly words: string
    readonly facts: readonly { readonly term: string; readonly words: string }[]
  } | null
  readonly fields: readonly {
    readonly name: string
    readonly words: string
    readonly hint: string
    readonly value: string
    readonly problem: string | null
  }[]
  readonly is: readonly { readonly name: string; readonly chosen: boolean }[]
  readonly care: readonly { readonly id: string; readonly name: string; readonly chosen: boolean }[]
  /** who changed it or its count, lately first */
  readonly written: readonly string[]
  readonly problems: readonly Problem[]
}

const fields = [
  ['name', 'Name', 'Such as: pair of brushes'],
  ['stock', 'How many are there now', ''],
  ['shelf', 'Where it lies', 'Such as: drawer 3'],
  ['supplierDays', 'Days until one is here', ''],
  ['price', 'Price of one', ''],
  ['pieces', 'Uses in one', '1 for a part; for a bottle of oil its drops, about 20 in a millilitre'],
] as const
type PartField = (typeof fields)[number][0]

/** @param kept null for a new part */
export function partPage(
  knowledge: Knowledge,
  kept: Kept | null,
  currency: Currency,
  sent: Sent | null = null,
  problems: readonly Problem[] = [],
  written: readonly Written[] = [],
): PartPage {
  const part = kept?.part
  const texts: Record<string, string> = {
    name: part?.name ?? '',
    stock: part ? '' : '1',
    shelf: part?.details.shelf ?? '',
    supplierDays: String(part?.details.supplierDays ?? 7),
    price: part?.details.price === undefined ? '' : amountText(part.details.price, currency),
    pieces: String(part ? Math.round(1 / part.details.perUse) : 1),
  }
  const chosen = sent ? textsOf(sent, 'is') : (part?.details.is ?? [])
  const care = sent ? textsOf(sent, 'care') : (part?.details.care ?? [])
  const title = part?.name ?? 'A part for the shelf'
  return {
    frame: plainFrame(`${problems.length > 0 ? 'Error: ' : ''}${title}`, 'tools'),
    title,
    action: part ? `/parts/${part.id}` : '/parts',
    stock: kept && {
      words: `${countWords(kept.part.stock)} there. Keep ${kept.keep}.`,
      facts: [
        { term: 'Expected use', words: `${countWords(meanOf(kept.rate))} a year` },
        { term: 'Runs out before the supplier brings more', words: inHundred(kept.runsOut) },
      ],
    },
    fields: fields.map(([name, words, hint]) => ({
      name,
      words,
      hint,
      value: sent ? textOf(sent, name) : (texts[name] ?? ''),
      problem: problems.find(({ field }) => field === name)?.here ?? null,
    })),
    is: rulebookParts(knowledge).map((name) => ({ name, chosen: chosen.includes(name) })),
    care: knowledge.care.map(({ id, name }) => ({ id, name, chosen: care.includes(id) })),
    written: writtenLines(written, { stock: stockWords }),
    problems,
  }
}

const stockWords = (change: string): string =>
  change.startsWith('-') ? `${countWords(-Number(change))} taken` : `${countWords(Number(change))} put there`

/** Every part that a fix of the rulebook takes, by name. */
const rulebookParts = ({ fixes }: Knowledge): readonly string[] =>
  [...new Set(fixes.flatMap(({ parts }) => parts.map(({ name }) => name)))].sort()

export interface SentPart {
  readonly name: string
  readonly details: PartDetails
  /** null where nobody counted */
  readonly stock: number | null
}

/** A part as a form sends it, or every problem with it. */
export function partFrom(
  sent: Sent,
  knowledge: Knowledge,
  currency: Currency,
):
  | { readonly ok: true; readonly part: SentPart }
  | { readonly ok: false; readonly problems: readonly Problem[] } {
  const problems: Problem[] = []
  const wrong = (field: PartField, here: string): number => {
    const words = fields.find(([name]) => name === field)![1]
    problems.push({
      field,
      message: `${words}: ${here}`,
      here: `${here.charAt(0).toUpperCase()}${here.slice(1)}`,
    })
    return 0
  }
  const number = (field: PartField, most: number, least = 0): number => {
    const text = textOf(sent, field).replace(',', '.')
    const fits = /^\d{1,5}(\.\d{1,3})?$/.test(text) && Number(text) >= least && Number(text) <= most
    return fits ? Number(text) : wrong(field, `enter a number from ${least} to ${most}`)
  }
  const name = textOf(sent, 'name')
  if (name === '' || name.length > 80) wrong('name', 'give it a name, of at most 80 characters')
  const shelf = textOf(sent, 'shelf')
  if (shelf.length > 80) wrong('shelf', 'use at most 80 characters')
  const price = textOf(sent, 'price') === '' ? undefined : readAmount(textOf(sent, 'price'), currency)
  if (typeof price === 'object') wrong('price', price.wrong)
  const stock = textOf(sent, 'stock') === '' ? null : number('stock', 10_000)
  const supplierDays = number('supplierDays', 365)
  const perUse = 1 / number('pieces', 10_000, 1)
  const known = rulebookParts(knowledge)
  const is = textsOf(sent, 'is').filter((it) => known.includes(it))
  const care = textsOf(sent, 'care').filter((it) => knowledge.care.some(({ id }) => id === it))
  if (problems.length > 0) return { ok: false, problems }
  const details: PartDetails = {
    supplierDays,
    is,
    perUse,
    care,
    ...(shelf !== '' && { shelf }),
    ...(typeof price === 'number' && { price }),
  }
  return { ok: true, part: { name, details, stock } }
}
