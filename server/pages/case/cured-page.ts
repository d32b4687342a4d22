import type { Frame } from '../layout/frame.js'
import { caseFrame } from '../layout/frame.js'
import { lookupOf } from '../../../shared/rulebook-index.js'
import type { OnBench } from '../../bench/on-bench.js'
import { safetyTestSpared } from '../../bench/on-bench.js'
import type { StopBand } from './stop-page.js'
import { stopBands } from './stop-page.js'
import { inHundred } from '../layout/words.js'

/** It runs again: what it was, and what keeps it so. */
export interface CuredPage {
  readonly frame: Frame
  readonly finish: string
  readonly back: string
  readonly seen: number
  readonly title: string
  readonly safetyTest: boolean
  /** what it may have been, likeliest first; the first is chosen */
  readonly causes: readonly CauseChoice[]
  readonly care: readonly CareView[]
  readonly bands: readonly StopBand[]
  /** why it cannot go back into use yet; null when it can */
  readonly stillOff: string | null
  /** where danger signs are settled; null when all are */
  readonly danger: string | null
  /** where the first stop is cleared that keeps it off the client; null where none does */
  readonly clear: { readonly href: string; readonly words: string } | null
}

export interface CauseChoice {
  readonly id: string
  readonly name: string
  readonly words: string
  readonly chosen: boolean
}

interface CareView {
  readonly name: string
  readonly every: string
  readonly how: readonly string[]
}

/** After a fix that was said to have cured it, before the case is closed. */
export function curedPage(on: OnBench, fixId: string): CuredPage {
  const { knowledge, bench } = on
  const fix = lookupOf(knowledge).fixes.get(fixId)
  const ended = fix?.ends === 'nothing-found'
  const title = ended ? 'Nothing wrong found' : 'It runs again'
  const cures = fix ? Object.keys(fix.cures) : []
  const bands = stopBands(on)
  const [first] = bands
  return {
    frame: caseFrame(knowledge, bench, title, { at: '' }),
    finish: `/cases/${bench.id}/finish`,
    back: `/cases/${bench.id}/came-back`,
    seen: bench.events.length,
    title,
    stillOff: stillOff(on),
    danger: on.assessment.unsettled.length > 0 ? `/cases/${bench.id}/danger` : null,
    safetyTest: fix !== undefined && fix.safetyTest && !safetyTestSpared(on),
    causes: causeChoices(on, cures, ended),
    care: careFor(on, fix?.afterwards ?? [], cures),
    bands,
    clear: first ? { href: first.clear, words: `Clear: ${first.name}` } : null,
  }
}

/** A danger sign that is there, or that nobody has settled, keeps it off the client. */
function stillOff(on: OnBench): string | null {
  if (on.assessment.unsettled.length > 0) return 'First settle the danger signs: some are “not sure”.'
  return stopBands(on).length > 0 ? 'It stays off the client until that is cleared.' : null
}

/** The causes among `ids` to choose from, likeliest first. */
export function causeChoices(
  on: OnBench,
  ids: readonly string[],
  chooseFirst: boolean,
): readonly CauseChoice[] {
  return on.assessment.causes
    .filter(({ id }) => ids.includes(id))
    .map(({ id, name, probability }, place) => ({
      id,
      name,
      words: inHundred(probability),
      chosen: chooseFirst && place === 0,
    }))
}

/** The care that a fix names, or else the care that prevents the causes which it cures. */
function careFor(on: OnBench, named: readonly string[], causes: readonly string[]): readonly CareView[] {
  const ofKind = on.knowledge.care.filter((care) => care.kinds.includes(on.bench.kind))
  const chosen =
    named.length > 0
      ? ofKind.filter(({ id }) => named.includes(id))
      : ofKind.filter(({ prevents }) => prevents.some((cause) => causes.includes(cause)))
  return chosen.slice(0, 3).map(({ name, every, how }) => ({ name, every, how }))
}
