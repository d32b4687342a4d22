/** Where a case stands, read off its events; nothing here is stored. */
import type { BenchCase, CaseEvent } from '../../shared/case.js'
import { caseStateOf, curedBy } from '../cases/fold.js'

type Finished = Extract<CaseEvent, { type: 'finished' }>

/** The event that ended the case, or null while it is on the bench. */
export function ending(bench: BenchCase): Finished | null {
  if (caseStateOf(bench) === 'on-the-bench') return null
  return bench.events.findLast((event) => event.type === 'finished') ?? null
}

/** The fix that was said to have cured it, while the case still lies on the bench; null otherwise. */
export function justCured(bench: BenchCase): string | null {
  return caseStateOf(bench) === 'on-the-bench' ? curedBy(bench) : null
}

/** Has something happened since which the tool must be looked at anew, such as a fix that did not cure? */
export function mustLookAgain(bench: BenchCase): boolean {
  const last = lastWord(bench)
  return last?.type === 'reopened' || (last?.type === 'tried' && last.outcome !== 'cured')
}

function lastWord(bench: BenchCase): CaseEvent | undefined {
  return bench.events.findLast((event) =>
    ['answered', 'tried', 'untried', 'finished', 'reopened'].includes(event.type),
  )
}

/** The page name under which the complaint is stored. */
export const complaintStep = 'complaint'

/** The page name under which it is stored what the tool does after a fix. */
export const afterFixStep = 'after-a-fix'

/** The page name under which a changed answer is stored: not a step's, for nobody put the hands on again. */
export const changedStep = 'changed-answer'

/** Has the user been through the complaint page? */
export function complaintTold(bench: BenchCase): boolean {
  return bench.events.some((event) => event.type === 'answered' && event.step === complaintStep)
}

/** The complaint in the user's own words, each way it was put, in order and once. */
export function ownWords(bench: BenchCase): readonly string[] {
  const said = bench.events.flatMap((event) =>
    event.type === 'answered' && event.words ? [event.words] : [],
  )
  return [...new Set(said)]
}

/** Was it said that the tool has been disinfected, and not taken back since? */
export function disinfected(bench: BenchCase): boolean {
  const last = bench.events.findLast((event) => event.type === 'disinfected')
  return last?.type === 'disinfected' && last.done
}

/** By stop: who did what lifts it, as said last. */
export function caseLifts(bench: BenchCase): ReadonlyMap<string, string> {
  return new Map(bench.events.flatMap((event) => (event.type === 'lifted' ? [[event.stop, event.by]] : [])))
}
