/** Numbers of the rulebook changed on trial. Pure: a changed rulebook is a new one, and no change is the same one. */
import type { Cause, Finding, Knowledge } from '../../shared/knowledge.js'

export type NumberChange =
  /** P(finding | this cause alone there), in (0, 1); 0 takes the cause out of the finding */
  | { readonly of: 'strength'; readonly finding: string; readonly cause: string; readonly value: number }
  /** P(finding | none of its causes there), in (0, 1) */
  | { readonly of: 'leak'; readonly finding: string; readonly value: number }
  /** of 1000 troubled tools of the kind, in how many it is the main cause */
  | { readonly of: 'share'; readonly cause: string; readonly value: number }

export interface Trial {
  readonly kind: string
  /** a number that several kinds share is changed for this kind alone */
  readonly onlyThisKind: boolean
  readonly changes: readonly NumberChange[]
  /** the cause whose share takes up what the changed shares add or leave; null = the sum is left as it comes out */
  readonly balance: string | null
}

/**
 * The rulebook with the changes of a trial. Entries that nothing changes stay the same objects, and so does the whole
 * rulebook when nothing is changed; ids that it does not have are passed over.
 */
export function changed(knowledge: Knowledge, trial: Trial): Knowledge {
  const findings = each(knowledge.findings, (finding) => changedFinding(finding, knowledge, trial))
  const causes = balanced(
    each(knowledge.causes, (cause) => changedCause(cause, trial)),
    knowledge.causes,
    trial,
  )
  if (findings === knowledge.findings && causes === knowledge.causes) return knowledge
  return { ...knowledge, findings, causes }
}

/** What the shares of a kind sum to; 1000 in a rulebook that is in order. */
export function sumOfShares({ causes }: Pick<Knowledge, 'causes'>, kind: string): number {
  return tidy(causes.reduce((sum, { shares }) => sum + (shares[kind] ?? 0), 0))
}

/** P(finding | none of its causes there) in a kind. */
export function leakIn(finding: Finding, kind: string): number {
  return finding.forKind?.[kind]?.leak ?? finding.leak
}

/** Without the last digits, in which only the arithmetic of doubles shows. */
export const tidy = (value: number): number => Number(value.toPrecision(10))

/** The same list when nothing in it was replaced. */
function each<Entry>(list: readonly Entry[], replace: (entry: Entry) => Entry): readonly Entry[] {
  const replaced = list.map(replace)
  return replaced.every((entry, i) => entry === list[i]) ? list : replaced
}

function changedFinding(finding: Finding, { causes }: Knowledge, trial: Trial): Finding {
  return trial.changes.reduce((so, change) => {
    if (change.of === 'share' || change.finding !== finding.id) return so
    if (change.of === 'leak') return withLeak(so, change.value, trial)
    const cause = causes.find(({ id }) => id === change.cause)
    return cause ? withStrength(so, cause, change.value, trial) : so
  }, finding)
}

function withLeak(finding: Finding, value: number, { kind, onlyThisKind }: Trial): Finding {
  if (value === leakIn(finding, kind)) return finding
  const own = finding.forKind?.[kind]
  const apart = own?.leak !== undefined || (onlyThisKind && finding.kinds.length > 1)
  if (!apart) return { ...finding, leak: value }
  return { ...finding, forKind: { ...finding.forKind, [kind]: { ...own, leak: value } } }
}

function withStrength(finding: Finding, cause: Cause, value: number, trial: Trial): Finding {
  const { kind, onlyThisKind } = trial
  const before = finding.strengths[cause.id]
  const here = typeof before === 'object' ? before[kind] : before
  if ((here ?? 0) === value) return finding
  const kinds = finding.kinds.filter((it) => cause.shares[it] !== undefined)
  const apart = typeof before === 'object' || (onlyThisKind && kinds.some((it) => it !== kind))
  const after = apart ? strengthsByKind(before, kinds, kind, value) : value
  const none = after === 0 || (typeof after === 'object' && Object.keys(after).length === 0)
  return {
    ...finding,
    strengths: none ? without(finding.strengths, cause.id) : { ...finding.strengths, [cause.id]: after },
  }
}

/** One number again when all kinds come out alike. */
function strengthsByKind(
  before: Finding['strengths'][string] | undefined,
  kinds: readonly string[],
  kind: string,
  value: number,
): Finding['strengths'][string] {
  const was =
    typeof before === 'object'
      ? before
      : Object.fromEntries(kinds.flatMap((it) => (before === undefined ? [] : [[it, before]])))
  const now = value === 0 ? without(was, kind) : { ...was, [kind]: value }
  const alike = kinds.every((it) => now[it] === value) && Object.values(now).every((it) => it === value)
  return alike ? value : now
}

function without<Value>(all: Readonly<Record<string, Value>>, key: string): Record<string, Value> {
  return Object.fromEntries(Object.entries(all).filter(([name]) => name !== key))
}

function changedCause(cause: Cause, { kind, changes }: Trial): Cause {
  const change = changes.findLast((it) => it.of === 'share' && it.cause === cause.id)
  if (!change || cause.shares[kind] === undefined || cause.shares[kind] === change.value) return cause
  return { ...cause, shares: { ...cause.shares, [kind]: change.value } }
}

function balanced(
  causes: readonly Cause[],
  before: readonly Cause[],
  { kind, balance }: Trial,
): readonly Cause[] {
  const over = tidy(sumOfShares({ causes }, kind) - sumOfShares({ causes: before }, kind))
  if (over === 0 || balance === null) return causes
  return causes.map((cause) => {
    const share = cause.shares[kind]
    if (cause.id !== balance || share === undefined) return cause
    return { ...cause, shares: { ...cause.shares, [kind]: tidy(share - over) } }
  })
}
