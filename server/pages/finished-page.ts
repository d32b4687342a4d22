import { ending } from './case-state.js'
import type { Frame } from './frame.js'
import { caseFrame } from './frame.js'
import { lookupOf } from './lookup.js'
import type { OnBench } from './on-bench.js'
import { instantWords, stateWords } from './words.js'

/** A case that has ended. */
export interface FinishedPage {
  readonly frame: Frame
  readonly reopen: string
  readonly seen: number
  readonly title: string
  readonly when: string
  readonly cause: { readonly name: string; readonly href: string; readonly ifIgnored: string } | null
  readonly note: string
  readonly tried: readonly string[]
  readonly slip: string | null
}

export function finishedPage(on: OnBench): FinishedPage {
  const { knowledge, bench } = on
  const { causes, fixes } = lookupOf(knowledge)
  const end = ending(bench)
  const state = end?.state ?? 'set-aside'
  const cause = end?.cause === undefined ? undefined : causes.get(end.cause)
  return {
    frame: caseFrame(knowledge, bench, stateWords(state), { at: '' }),
    reopen: `/cases/${bench.id}/reopen`,
    seen: bench.events.length,
    title: stateWords(state),
    when: instantWords(bench.changedAt),
    cause: cause
      ? { name: cause.name, href: `/rulebook/causes/${cause.id}`, ifIgnored: cause.ifIgnored }
      : null,
    note: end?.note ?? '',
    tried: on.situation.fixesTried.map((fix) => fixes.get(fix)?.name ?? fix),
    slip: state === 'running-again' ? null : `/cases/${bench.id}/slip`,
  }
}
