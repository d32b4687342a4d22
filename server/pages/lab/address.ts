/** The address of a dry run with nothing in it that says nothing: short enough to be sent to somebody. */
import type { NumberChange } from '../../lab/changes.js'
import { textOf, textsOf } from '../../forms/answer-form.js'
import {
  addCountField,
  fieldOfLeak,
  fieldOfShare,
  fieldOfStrength,
  type LabForm,
} from '../../forms/lab-form.js'

/** The field of the form that makes a change. */
export function fieldOf(change: NumberChange): string {
  if (change.of === 'share') return fieldOfShare(change.cause)
  return change.of === 'leak' ? fieldOfLeak(change.finding) : fieldOfStrength(change.finding, change.cause)
}

/** A number as it is typed: of 1000 for a share, of 100 for anything else. 0.125 of 100 is "12.5". */
export function countText(value: number, of: 100 | 1000): string {
  return String(Number((of === 1000 ? value : value * 100).toPrecision(6)))
}

/**
 * The query that says the same as what was sent. What is to be put right, and what the rulebook does not have, is
 * kept as it was typed.
 */
export function shortQuery({ sent, kind, situation, trial, open, problems }: LabForm): URLSearchParams {
  const query = new URLSearchParams({ kind })
  const keep = (name: string, value: string): void => {
    if (value !== '') query.set(name, value)
  }
  const wrong = new Set(problems.map(({ field }) => field))
  keep('find', textOf(sent, 'find'))
  for (const name of Object.keys(sent)) {
    if (/^[qn]-/.test(name)) keep(name, textsOf(sent, name).find((text) => text !== '') ?? '')
    if (/^[slp]\./.test(name) && wrong.has(name)) keep(name, textOf(sent, name))
  }
  for (const [question, answer] of Object.entries(situation.answers))
    if (typeof answer === 'string') keep(`q-${question}`, answer)
  for (const change of trial.changes)
    keep(fieldOf(change), countText(change.value, change.of === 'share' ? 1000 : 100))
  if (wrong.has(addCountField))
    for (const name of ['add-to', 'add-cause', addCountField]) keep(name, textOf(sent, name))
  keep('open', open)
  keep('only', trial.onlyThisKind ? 'yes' : '')
  keep('balance', trial.balance ?? '')
  keep('marks', textOf(sent, 'marks'))
  return query
}
