import { caseStateOf } from '../../cases/fold.js'
import { confirmedOutcome, returnOf } from '../../cases/outcome.js'
import { minutesTold } from '../../cases/minutes-told.js'
import { struckOut } from '../../cases/struck-out.js'
import { disinfected, ending } from '../../bench/case-state.js'
import type { Frame } from '../layout/frame.js'
import { caseFrame } from '../layout/frame.js'
import { lookupOf } from '../../../shared/rulebook-index.js'
import { setupsNeeded } from '../../../shared/setups-needed.js'
import type { OnBench } from '../../bench/on-bench.js'
import type { ReturnedView } from '../decision/return-words.js'
import { returnedView } from '../decision/return-words.js'
import { likeliestWords } from './so-far.js'
import { takenWords } from '../parts/taken-words.js'
import { instantWords, minutes, stateWords } from '../layout/words.js'

/** A case that has ended. */
export interface FinishedPage {
  readonly frame: Frame
  readonly reopen: string
  readonly seen: number
  readonly title: string
  readonly when: string
  readonly cause: { readonly name: string; readonly href: string; readonly ifIgnored: string } | null
  /** while it is away: "Worn-out battery, 69 in 100." */
  readonly likeliest: string
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
  /** how long the fix took that cured it, to be told by one tap; null where none did */
  readonly took: {
    readonly action: string
    readonly fix: string
    readonly name: string
    /** "about 15 minutes"; null where nobody told */
    readonly told: string | null
    readonly choices: readonly { readonly value: number; readonly words: string }[]
  } | null
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
    likeliest:
      state === 'boxed-for-service' ? likeliestWords(on) : state === 'set-aside' ? dangerWords(on) : '',
    note: end?.note ?? '',
    dirty: state === 'running-again' && !disinfected(bench),
    tried: on.situation.fixesTried.map((fix) => fixes.get(fix)?.name ?? fix),
    slip: state === 'running-again' ? null : at('slip'),
    comeBack: state === 'boxed-for-service' ? at('return') : null,
    returned: returned && returnedView(on, returned),
    retire: state === 'set-aside' ? at('retire') : null,
    taken: takenWords(on),
    took: tookView(on),
  }
}

/** "Tingle or shock. Tag it: do not use."; empty where no danger set it aside. */
function dangerWords({ knowledge, assessment }: OnBench): string {
  const stop = assessment.stops.find(({ grade }) => grade === 'set-aside')
  return stop ? `${lookupOf(knowledge).stops.get(stop.id)!.name}. Tag it: do not use.` : ''
}

/** A hand that is quicker, as quick as the rulebook says, half as slow again, twice and three times as slow. */
const paces = [0.5, 1, 1.5, 2, 3]

function tookView({ bench, knowledge }: OnBench): FinishedPage['took'] {
  const id = curedBy(bench)
  const fix = id === null ? undefined : lookupOf(knowledge).fixes.get(id)
  if (!fix || fix.ends !== undefined) return null
  const told = minutesTold(bench).find((it) => it.fix === fix.id)
  // a hand reckons from plug out to running; what is learned is the fix alone
  const around = Math.round(
    setupsNeeded(knowledge.setups, fix.setups).reduce((sum, setup) => sum + setup.minutes, 0),
  )
  const choices = [...new Set(paces.map((pace) => Math.max(1, Math.round(fix.minutes * pace))))]
  return {
    action: `/cases/${bench.id}/took`,
    fix: fix.id,
    name: fix.name,
    told: told ? minutes(told.minutes + around) : null,
    choices: choices.map((value) => ({ value, words: String(value + around) })),
  }
}

/** The last fix that was said to have cured it; null where none stands. */
function curedBy({ events }: OnBench['bench']): string | null {
  const struck = struckOut(events)
  const last = events.findLast(
    (event, place) => event.type === 'tried' && event.outcome === 'cured' && !struck.fix(place),
  )
  return last?.type === 'tried' ? last.fix : null
}
