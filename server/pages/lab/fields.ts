/** A number of the rulebook as a field of the dry run, by the name of the field. */
import type { Cause, Finding, Knowledge } from '../../../shared/knowledge.js'
import { strengthIn } from '../../../shared/finding-rule.js'
import { leakIn } from '../../lab/changes.js'
import { textOf } from '../../forms/answer-form.js'
import { countText, fieldOf } from './address.js'
import type { LabForm } from '../../forms/lab-form.js'
import { lookupOf } from '../../../shared/rulebook-index.js'

/** One number: what is typed, and what the rulebook has. */
export interface NumberField {
  readonly name: string
  readonly words: string
  readonly value: string
  readonly unit: string
  readonly rulebook: string
  readonly changed: boolean
  readonly problem: string | null
}

/** The field of this name; none when it is of nothing in the rulebook. `full`: its words tell the sign as well. */
export function fieldNamed(book: Knowledge, form: LabForm, name: string, full: boolean): NumberField[] {
  const { kind, changes } = form.trial
  const [what, id = '', other = ''] = name.split('.')
  const { findings, causes } = lookupOf(book)
  const [finding, cause] = [findings.get(id), causes.get(what === 'p' ? id : other)]
  const of = what === 'p' ? 1000 : 100
  const now =
    what === 'p'
      ? (cause?.shares[kind] ?? 0)
      : what === 'l'
        ? finding && leakIn(finding, kind)
        : finding && cause && (strengthIn(finding, cause.id, kind) ?? 0)
  const words = wordsOf(what, finding, cause, full)
  if (now === undefined || words === '') return []
  const change = changes.findLast((it) => fieldOf(it) === name)
  const problem = form.problems.find(({ field }) => field === name)
  return [
    {
      name,
      words,
      value: problem ? textOf(form.sent, name) : countText(change?.value ?? now, of),
      unit: `in ${of}`,
      rulebook: now === 0 ? 'not in the rulebook' : `${countText(now, of)} in the rulebook`,
      changed: change !== undefined,
      problem: problem?.here ?? null,
    },
  ]
}

function wordsOf(
  what: string | undefined,
  finding: Finding | undefined,
  cause: Cause | undefined,
  full: boolean,
): string {
  if (what === 'p') return cause ? (full ? `How common: ${cause.name}` : cause.name) : ''
  if (!finding) return ''
  if (what === 'l') return full ? `${finding.says}: without any of its causes` : 'Without any of these causes'
  return cause ? (full ? `${finding.says}: ${cause.name}` : cause.name) : ''
}
