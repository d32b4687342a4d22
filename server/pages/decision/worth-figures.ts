/** The figures of a case: each with where it comes from, to be opened and changed; and what a form says of them. */
import type { CaseEvent } from '../../../shared/case.js'
import type { Currency, FigureFrom, FigureName, Figures, SomeFigures } from '../../../shared/figures.js'
import { ownFigures } from '../../cases/case-figures.js'
import type { Problem, Sent } from '../../forms/answer-form.js'
import { textOf } from '../../forms/answer-form.js'
import type { FigureField } from '../../forms/figure-fields.js'
import type { FieldView, Ground } from '../../forms/figure-form.js'
import { fieldView, figuresFrom, namesOf } from '../../forms/figure-form.js'
import { amountText, moneyIn, readAmount } from '../layout/money.js'
import type { OnBench } from '../../bench/on-bench.js'
import type { SourceView } from '../layout/source-view.js'
import { sourceView } from '../layout/source-view.js'
import type { CaseField } from './worth-fields.js'
import { caseGroups, spentByYear } from './worth-fields.js'

interface FigureView {
  /** of the fold, for links to it */
  readonly id: string
  readonly name: string
  readonly value: string
  readonly from: FigureFrom
  readonly fromShort: string
  readonly fromWords: string
  readonly source: SourceView | null
  readonly field: FieldView
  /** the names to give back, where they were said in this case */
  readonly forget: string | null
  readonly forgetWords: string
  readonly open: boolean
}

export interface FigureGroup {
  readonly title: string
  readonly figures: readonly FigureView[]
}

const fields: readonly FigureField[] = caseGroups.flatMap((group) =>
  group.fields.flatMap((field) => (field.sort === 'spent' ? [] : [field])),
)

const groundOf = ({ bench, otherwise, currency }: OnBench): Ground => ({
  currency,
  own: ownFigures(bench),
  otherwise: otherwise.figures,
})

export function figureGroups(
  on: OnBench,
  sent: Sent | null,
  problems: readonly Problem[],
): readonly FigureGroup[] {
  const ground = groundOf(on)
  return caseGroups.map(({ title, fields: its }) => ({
    title,
    figures: its.map((field) => {
      const names = field.sort === 'spent' ? [field.name] : namesOf(field)
      const view =
        field.sort === 'spent'
          ? spentView(ground, sent, problems)
          : { ...fieldView(field, ground, sent, problems), usual: '' }
      return figureView(on, names, view, valueWords(field, names, on.inForce.figures, on.currency))
    }),
  }))
}

function figureView(on: OnBench, names: readonly FigureName[], field: FieldView, value: string): FigureView {
  const { inForce, knowledge } = on
  const froms = names.map((name) => inForce.from[name])
  const from = (['case', 'tool', 'shop', 'usual'] as const).find((it) => froms.includes(it)) ?? 'usual'
  const own = ownFigures(on.bench)
  const mine = names.filter((name) => own[name] !== undefined)
  return {
    id: `figure-${names[0]}`,
    name: field.words,
    value,
    from,
    fromShort: shortly[from],
    fromWords: atLength[from],
    source: from === 'usual' ? sourceView(knowledge, estimate) : null,
    field,
    forget: mine.length > 0 ? mine.join(',') : null,
    forgetWords: mine.some((name) => on.otherwise.from[name] === 'shop')
      ? 'Back to the shop’s figure'
      : 'Back to the usual',
    open: field.problem !== null,
  }
}

/** The source that a usual figure has. */
const estimate = 'trade-estimate'

const shortly: Readonly<Record<FigureFrom, string>> = {
  usual: 'usual',
  shop: 'the shop',
  tool: 'its record',
  case: 'said here',
}
const atLength: Readonly<Record<FigureFrom, string>> = {
  usual: 'Nobody has said it for this shop or this tool, so the usual stands in.',
  shop: 'The shop’s own figure.',
  tool: 'From the record of this tool.',
  case: 'Said for this tool in this case; it counts before the shop’s own.',
}

function valueWords(
  field: CaseField,
  names: readonly FigureName[],
  figures: Figures,
  currency: Currency,
): string {
  const values = names.map((name) => figures[name])
  if (field.sort === 'spent')
    return figures.spentByYear.length === 0
      ? 'no record'
      : figures.spentByYear.map((spent) => moneyIn(spent / 10 ** currency.digits, currency)).join(', ')
  if (field.sort === 'choice')
    return field.choices.find(({ means }) => means === values[0])?.words ?? String(values[0])
  const words = (value: unknown): string => {
    if (typeof value !== 'number') return 'not known'
    if (field.sort === 'amount') return moneyIn(value / 10 ** currency.digits, currency)
    if (field.sort === 'percent') return `${Math.round(value * 1000) / 10} ${field.unit}`
    return `${value} ${value === 1 ? field.unit.replace(/s$/, '') : field.unit}`
  }
  const [low, high] = values
  if (high === undefined || high === low) return words(low)
  return field.sort === 'amount' ? `${words(low)} to ${words(high)}` : `${String(low)} to ${words(high)}`
}

function spentView(
  { own, otherwise, currency }: Ground,
  sent: Sent | null,
  problems: readonly Problem[],
): FieldView {
  const { name, words, hint } = spentByYear
  const problem = problems.find(({ field }) => field === name)
  const value = sent ? textOf(sent, name) : spentText(own[name] ?? otherwise[name], currency)
  return {
    id: name,
    words,
    hint,
    boxes: [{ name, label: words, value, wrong: problem !== undefined }],
    unit: currency.code,
    choices: [],
    usual: '',
    problem: problem ? (problem.here ?? problem.message) : null,
  }
}

const spentText = (spent: readonly number[], currency: Currency): string =>
  spent.map((it) => amountText(it, currency)).join(' ')

export type SaidFigures =
  | { readonly ok: true; readonly event: CaseEvent | null }
  | { readonly ok: false; readonly problems: readonly Problem[] }

/**
 * What a form says of the figures, as an event; null when it says nothing new. Only what was touched counts: a field
 * that still holds what it showed is nobody's word.
 */
export function saidFigures(on: OnBench, sent: Sent): SaidFigures {
  const ground = groundOf(on)
  const back = new Set(textOf(sent, 'forget').split(','))
  const touched = fields.filter(
    (field) => !namesOf(field).some((name) => back.has(name)) && isTouched(field, ground, sent),
  )
  const read = figuresFrom(touched, sent, ground)
  const spent = back.has(spentByYear.name) ? ground.own.spentByYear : readSpent(ground, sent)
  if (!read.ok || (spent !== undefined && 'wrong' in spent)) {
    const wrong = spent !== undefined && 'wrong' in spent ? [spentProblem(spent.wrong)] : []
    return { ok: false, problems: [...(read.ok ? [] : read.problems), ...wrong] }
  }
  const rest = Object.fromEntries(
    Object.entries(read.figures).filter(([name]) => name !== spentByYear.name),
  ) as SomeFigures
  const wanted: SomeFigures = spent === undefined ? rest : { ...rest, spentByYear: spent as number[] }
  return { ok: true, event: eventFrom(ground.own, wanted, back) }
}

function isTouched(field: FigureField, ground: Ground, sent: Sent): boolean {
  const shown = fieldView(field, ground, null, [])
  if (field.sort === 'choice') {
    const value = textOf(sent, field.name)
    return value !== '' && !shown.choices.some((it) => it.chosen && it.value === value)
  }
  return shown.boxes.some(({ name, value }) => sent[name] !== undefined && textOf(sent, name) !== value)
}

/** The row of sums; undefined when there is none. */
function readSpent(
  { own, otherwise, currency }: Ground,
  sent: Sent,
): readonly number[] | { wrong: string } | undefined {
  const shown = spentText(own.spentByYear ?? otherwise.spentByYear, currency)
  const text = textOf(sent, spentByYear.name)
  if (sent[spentByYear.name] === undefined || text === shown) return own.spentByYear
  if (text === '') return undefined
  const sums = text.split(/[\s;]+/).map((one) => readAmount(one, currency))
  const wrong = sums.find((it) => typeof it !== 'number')
  if (wrong !== undefined) return wrong as { wrong: string }
  return sums.length > 40 ? { wrong: 'enter at most 40 years' } : (sums as number[])
}

const spentProblem = (wrong: string): Problem => ({
  field: spentByYear.name,
  message: `${spentByYear.words}: ${wrong}`,
  here: `For each year ${wrong}`,
})

function eventFrom(own: SomeFigures, wanted: SomeFigures, back: ReadonlySet<string>): CaseEvent | null {
  const said = Object.entries(wanted).filter(
    ([name, value]) =>
      !back.has(name) &&
      value !== undefined &&
      JSON.stringify(value) !== JSON.stringify(own[name as FigureName]),
  )
  const forget = (Object.keys(own) as FigureName[]).filter(
    (name) => back.has(name) || wanted[name] === undefined,
  )
  if (said.length === 0 && forget.length === 0) return null
  return { type: 'figured', figures: Object.fromEntries(said) as SomeFigures, forget }
}
