import { caseStateOf } from '../../cases/fold.js'
import { confirmedOutcome, returnOf } from '../../cases/outcome.js'
import { disinfected, ending } from '../../bench/case-state.js'
import type { Frame } from '../layout/frame.js'
import { caseFrame } from '../layout/frame.js'
import { lookupOf } from '../../../shared/rulebook-index.js'
import type { OnBench } from '../../bench/on-bench.js'
import type { ReturnedView } from '../decision/return-words.js'
import { returnedView } from '../decision/return-words.js'
import { takenWords } from '../parts/taken-words.js'
import { instantWords, stateWords } from '../layout/words.js'

/** A case that has ended. */
export interface FinishedPage {
  readonly frame: Frame
  readonly reopen: string
  readonly seen: number
  readonly title: string
  readonly when: string
  readonly cause: { readonly name: string; readonly href: string; readonly ifIgnored: string } | null
  readonly note: string
  /** back in use and not disinfected, as was said */
  readonly dirty: boolean
  readonly tried: readonly string[]
  readonly slip: string | null
  /** where it is said that it came back; null while it is not away */
  readonly comeBack: string | null
  /** what came back from the service; null where nothing did */
  readonly returned: ReturnedView | null
  readonly retire: string | null
  /** what it took from the shelf, to be put back; null where nothing */
  readonly taken: { readonly batch: string; readonly words: string } | null
}

export function finishedPage(on: OnBench): FinishedPage {
  const { knowledge, bench } = on
  const { causes, fixes } = lookupOf(knowledge)
  const end = ending(bench)
  const state = caseStateOf(bench)
  const outcome = confirmedOutcome(bench)
  const cause = outcome ? causes.get(outcome.cause) : undefined
  const returned = returnOf(bench)
  const at = (page: string) => `/cases/${bench.id}/${page}`
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
    dirty: state === 'running-again' && !disinfected(bench),
    tried: on.situation.fixesTried.map((fix) => fixes.get(fix)?.name ?? fix),
    slip: state === 'running-again' ? null : at('slip'),
    comeBack: state === 'boxed-for-service' ? at('return') : null,
    returned: returned && returnedView(on, returned),
    retire: state === 'set-aside' ? at('retire') : null,
    taken: takenWords(on),
  }
}
