/** The shop's own figures: what the plan and the comparison reckon with, to be read and changed. */
import type { FigureName, ShopRecord, SomeFigures } from '../../../shared/figures.js'
import { Figures } from '../../../shared/figures.js'
import type { LimitSet } from '../../../shared/knowledge.js'
import { currencyOf } from '../../decision/currency.js'
import type { Problem, Sent } from '../../forms/answer-form.js'
import { textOf } from '../../forms/answer-form.js'
import type { FigureField } from '../../forms/figure-fields.js'
import { firstFields, moreFields } from '../../forms/figure-fields.js'
import type { FieldView } from '../../forms/figure-form.js'
import { fieldView, figuresFrom, namesOf } from '../../forms/figure-form.js'
import type { Frame } from '../layout/frame.js'
import { figureNamesWords } from './figure-words.js'
import { plainFrame } from '../layout/frame.js'
import { writtenLines } from '../layout/written-words.js'
import type { Written } from '../../../shared/person.js'

export interface ShopPage {
  readonly frame: Frame
  readonly currency: { readonly value: string; readonly name: string; readonly problem: string | null }
  readonly first: readonly FieldView[]
  /** the sets of test limits, and that none is named */
  readonly limitSets: readonly { readonly value: string; readonly words: string; readonly chosen: boolean }[]
  readonly more: readonly { readonly title: string; readonly fields: readonly FieldView[] }[]
  /** does the fold stand open, because something in it is to be put right? */
  readonly open: boolean
  readonly kept: boolean
  /** the version of the figures that the form is made for */
  readonly seen: number
  /** who changed them, lately first */
  readonly written: readonly string[]
  readonly problems: readonly Problem[]
}

/** A set of test limits, to be chosen from. */
type NamedSet = Pick<LimitSet, 'id' | 'name'>

const currencyNames = new Intl.DisplayNames('en', { type: 'currency' })
const usual = Figures.parse({})
const inFold: readonly FigureField[] = moreFields.flatMap(({ fields }) => fields)

/** Every figure that the page shows. */
const shopFields: readonly FigureField[] = [...firstFields, ...inFold]

/** @param sent what a refused form held, to be put right; null shows the figures as they are */
export function shopPage(
  { record, version }: { readonly record: ShopRecord; readonly version: number },
  sets: readonly NamedSet[],
  sent: Sent | null = null,
  problems: readonly Problem[] = [],
  { kept = false, written = [] }: { readonly kept?: boolean; readonly written?: readonly Written[] } = {},
): ShopPage {
  const code = sent ? textOf(sent, 'currency') : record.currency.code
  const currency = currencyOf(code) ?? record.currency
  const ground = { currency, own: record.figures, otherwise: usual }
  const view = (field: FigureField): FieldView => fieldView(field, ground, sent, problems)
  const folded = new Set<string>(inFold.flatMap(namesOf))
  return {
    frame: plainFrame(`${problems.length > 0 ? 'Error: ' : ''}The shop’s figures`, 'shop'),
    currency: {
      value: code,
      name: currencyNames.of(currency.code) ?? currency.code,
      problem: problems.find(({ field }) => field === 'currency')?.here ?? null,
    },
    first: firstFields.map(view),
    limitSets: [{ id: '', name: 'None named yet' }, ...sets].map(({ id, name }) => ({
      value: id,
      words: name,
      chosen: id === (sent ? textOf(sent, 'limitSet') : (record.figures.limitSet ?? '')),
    })),
    more: moreFields.map(({ title, fields }) => ({ title, fields: fields.map(view) })),
    open: problems.some(({ field }) => folded.has(field)),
    kept,
    seen: version,
    // a line that was kept before lines said what it was has no names
    written: writtenLines(written, { changed: (kept) => figureNamesWords(kept) || 'changed' }),
    problems,
  }
}

/** The record that a form makes of the one before, or every problem with it. */
export function shopFrom(
  sent: Sent,
  before: ShopRecord,
  sets: readonly NamedSet[],
): { ok: true; record: ShopRecord } | { ok: false; problems: readonly Problem[] } {
  const code = textOf(sent, 'currency')
  const currency = currencyOf(code)
  const read = figuresFrom(shopFields, sent, {
    currency: currency ?? before.currency,
    own: before.figures,
    otherwise: usual,
  })
  if (currency === null) {
    const here = `${code === '' ? 'Nothing' : `“${code.slice(0, 12)}”`} is no currency; use its three letters, such as EUR`
    const problem = { field: 'currency', message: `Currency: ${here}`, here }
    return { ok: false, problems: [problem, ...(read.ok ? [] : read.problems)] }
  }
  if (!read.ok) return read
  // a form without the field, such as an old one, leaves the set as it is
  if (sent['limitSet'] === undefined) return { ok: true, record: { currency, figures: read.figures } }
  const figures = Object.fromEntries(
    Object.entries(read.figures).filter(([name]) => name !== 'limitSet'),
  ) as SomeFigures
  const named = sets.find(({ id }) => id === textOf(sent, 'limitSet'))
  return { ok: true, record: { currency, figures: named ? { ...figures, limitSet: named.id } : figures } }
}

/**
 * What to say where somebody else has kept other figures since the form was made: what was typed stays in its fields,
 * and beside each that differs stands what the other has put in. Kept once more, it counts.
 */
export function changedMeanwhile(sent: Sent, record: ShopRecord, sets: readonly NamedSet[]): Problem[] {
  const theirs = shopPage({ record, version: 0 }, sets)
  const mine = shopPage({ record, version: 0 }, sets, sent)
  const fieldsOf = (page: ShopPage) => [...page.first, ...page.more.flatMap(({ fields }) => fields)]
  const others = fieldsOf(theirs)
  const differing = fieldsOf(mine).flatMap((field, k): Problem[] => {
    const now = saidIn(others[k]!)
    return saidIn(field) === now
      ? []
      : [{ field: field.id, message: `${field.words}: now ${now}`, here: `Somebody has put in: ${now}` }]
  })
  return [
    {
      field: 'main',
      message:
        'Somebody changed these figures meanwhile. Yours are below, not kept yet: look, then keep them.',
    },
    ...differing,
    ...(theirs.currency.value === mine.currency.value
      ? []
      : [
          {
            field: 'currency',
            message: `Currency: now ${theirs.currency.value}`,
            here: `Somebody has put in: ${theirs.currency.value}`,
          },
        ]),
  ]
}

const saidIn = ({ boxes, choices, unit }: FieldView): string =>
  boxes.length > 0
    ? `${boxes.map(({ value }) => value || 'nothing').join(' to ')} ${unit}`.trim()
    : (choices.find(({ chosen }) => chosen)?.words ?? 'nothing')

/** The names of the fields, for whoever sends the form by other means. */
export const shopFieldNames: readonly FigureName[] = shopFields.flatMap(namesOf)
