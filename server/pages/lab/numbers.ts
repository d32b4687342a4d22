/** The numbers of the rulebook as fields of the dry run: those laid open, and those changed elsewhere. */
import type { Cause, Finding, Knowledge } from '../../../shared/knowledge.js'
import { strengthIn } from '../../../shared/finding-rule.js'
import { sumOfShares } from '../../lab/changes.js'
import { textOf } from '../../forms/answer-form.js'
import { fieldOf } from './address.js'
import { fieldNamed, type NumberField } from './fields.js'
import {
  addCountField,
  fieldOfLeak,
  fieldOfShare,
  fieldOfStrength,
  type LabForm,
} from '../../forms/lab-form.js'
import { lookupOf } from '../../../shared/rulebook-index.js'
import { listWords } from '../layout/words.js'

interface Opened {
  readonly heading: string
  readonly hint: string
  /** other kinds that the numbers count for too; empty when there are none, or a kind has its own */
  readonly alsoFor: string
  readonly fields: readonly NumberField[]
  /** a sign: causes that it does not point to yet */
  readonly adds: {
    readonly to: string
    readonly causes: readonly Option[]
    readonly field: NumberField
  } | null
}

interface Option {
  readonly value: string
  readonly words: string
  readonly chosen: boolean
}

export interface LabNumbers {
  /** lists to choose from what to lay open */
  readonly lists: readonly { readonly heading: string; readonly options: readonly Option[] }[]
  readonly opened: Opened | null
  readonly others: readonly NumberField[]
  readonly onlyThisKind: boolean
  /** whose share takes up the difference; empty unless a share is changed */
  readonly balance: readonly Option[]
  readonly sum: string
}

/**
 * @param book  the rulebook of the kind, as it is in use
 * @param after the same with the changes
 */
export function labNumbers(whole: Knowledge, book: Knowledge, after: Knowledge, form: LabForm): LabNumbers {
  const opened = openedFrom(whole, book, form)
  const shown = new Set(opened?.fields.map(({ name }) => name))
  const touched = new Set([
    ...form.trial.changes.map(fieldOf),
    ...form.problems.map(({ field }) => field).filter((field) => /^[slp]\./.test(field)),
  ])
  return {
    lists: listsFrom(book, form),
    opened,
    others: [...touched]
      .filter((name) => !shown.has(name))
      .flatMap((name) => fieldNamed(book, form, name, true)),
    onlyThisKind: form.trial.onlyThisKind,
    balance: balanceFrom(book, form),
    sum: sumWords(after, form),
  }
}

function listsFrom(book: Knowledge, { situation, open }: LabForm): LabNumbers['lists'] {
  const { questionOf } = lookupOf(book)
  const sign = ({ id, says }: Finding): Option => {
    const value = `finding:${id}`
    return { value, words: says, chosen: value === open }
  }
  const isSaid = ({ id }: Finding): boolean => situation.answers[questionOf.get(id) ?? ''] !== undefined
  return [
    { heading: 'Signs that were answered', options: book.findings.filter(isSaid).map(sign) },
    {
      heading: 'How common a cause is',
      options: book.causes.map(({ id, name }) => {
        const value = `cause:${id}`
        return { value, words: name, chosen: value === open }
      }),
    },
    { heading: 'Other signs', options: book.findings.filter((it) => !isSaid(it)).map(sign) },
  ].filter(({ options }) => options.length > 0)
}

function openedFrom(whole: Knowledge, book: Knowledge, form: LabForm): Opened | null {
  const [what, id = ''] = form.open.split(':')
  const { findings, causes } = lookupOf(book)
  const finding = what === 'finding' ? findings.get(id) : undefined
  if (finding) return openedSign(whole, book, finding, form)
  const cause = what === 'cause' ? causes.get(id) : undefined
  if (!cause) return null
  return {
    heading: `How common: ${cause.name}`,
    hint: `Of 1000 troubled tools of this kind, in how many is it the main cause? In rules/causes/${id}.json.`,
    alsoFor: '',
    fields: fieldNamed(book, form, fieldOfShare(id), false),
    adds: null,
  }
}

function openedSign(whole: Knowledge, book: Knowledge, finding: Finding, form: LabForm): Opened {
  const { kind, changes } = form.trial
  const pointed = book.causes
    .map(({ id }) => ({ id, strength: strengthIn(finding, id, kind) ?? 0 }))
    .filter(
      ({ id, strength }) =>
        strength > 0 || changes.some((it) => fieldOf(it) === fieldOfStrength(finding.id, id)),
    )
    .sort((a, b) => b.strength - a.strength)
  const others = finding.kinds.filter((it) => it !== kind)
  const names = others.map((it) => lookupOf(whole).kinds.get(it)?.plainName ?? it)
  return {
    heading: finding.says,
    hint: `Of 100 tools with this fault alone, how many show it? 0 takes a cause out. In rules/findings/${finding.id}.json.`,
    alsoFor: names.length === 0 ? '' : `This sign is also looked for in: ${listWords(names)}.`,
    fields: [
      ...pointed.flatMap(({ id }) => fieldNamed(book, form, fieldOfStrength(finding.id, id), false)),
      ...fieldNamed(book, form, fieldOfLeak(finding.id), false),
    ],
    adds: addsFrom(book, finding, pointed, form),
  }
}

function addsFrom(
  book: Knowledge,
  finding: Finding,
  pointed: readonly { readonly id: string }[],
  { sent, problems }: LabForm,
): Opened['adds'] {
  const problem = problems.find(({ field }) => field === addCountField)
  const chosen = problem ? textOf(sent, 'add-cause') : ''
  const left = book.causes.filter(({ id }) => !pointed.some((it) => it.id === id))
  return {
    to: finding.id,
    causes: left.map(({ id, name }: Cause) => ({ value: id, words: name, chosen: id === chosen })),
    field: {
      name: addCountField,
      words: 'Of 100 tools with it alone',
      value: problem ? textOf(sent, addCountField) : '',
      unit: 'in 100',
      rulebook: '',
      changed: false,
      problem: problem?.here ?? null,
    },
  }
}

function balanceFrom(book: Knowledge, { trial }: LabForm): Option[] {
  const changed = new Set(trial.changes.flatMap((it) => (it.of === 'share' ? [it.cause] : [])))
  if (changed.size === 0) return []
  return [
    { value: '', words: 'from nobody yet', chosen: trial.balance === null },
    ...book.causes
      .filter(({ id }) => !changed.has(id))
      .map(({ id, name, shares }) => ({
        value: id,
        words: `${name} (${shares[trial.kind]})`,
        chosen: id === trial.balance,
      })),
  ]
}

function sumWords(after: Knowledge, { trial }: LabForm): string {
  if (!trial.changes.some((it) => it.of === 'share')) return ''
  const sum = sumOfShares(after, trial.kind)
  const over = Number((sum - 1000).toFixed(3))
  if (Math.abs(over) <= 0.5) return `The shares of this kind sum to ${sum}, as they should.`
  const act = over > 0 ? `take ${over} from other causes` : `give ${-over} to other causes`
  return `The shares of this kind sum to ${sum}, and should to 1000: ${act}. Here they are worked out in proportion.`
}
