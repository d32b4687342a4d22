/** Which screen a case shows now. The order is the order of the work: danger before money. */
import type { BenchCase } from '../../../shared/case.js'
import type { Assessment } from '../../../shared/diagnosis.js'
import { complaintTold, ending, justCured, mustLookAgain } from '../../bench/case-state.js'
import { curedPage } from './cured-page.js'
import { dangerPage } from './danger-page.js'
import { endingPage } from './ending-page.js'
import { finishedPage } from './finished-page.js'
import { fixPage } from './fix-page.js'
import { lookupOf } from '../../../shared/rulebook-index.js'
import { nowPage } from './now-page.js'
import type { OnBench } from '../../bench/on-bench.js'
import { dangerOpen, dangerStep } from '../../bench/on-bench.js'
import type { Shown } from '../render.js'
import { stepPage } from './step-page.js'
import { stopPage } from './stop-page.js'

/** By assessment, which stands for the rulebook too: what it was shown for last, and its screen. */
const shownLast = new WeakMap<
  Assessment,
  { readonly bench: BenchCase; readonly inForce: OnBench['inForce']; readonly screen: Shown | null }
>()

/**
 * The page of the case as it stands; null when the complaint was not told yet. Made once for each version of
 * a case: case, figures and assessment are each one object until something new is said.
 *
 * @param at which screen of a fix, see `fixPage`
 */
export function screenOf(on: OnBench, at = 0): Shown | null {
  const last = shownLast.get(on.assessment)
  if (at === 0 && last?.bench === on.bench && last.inForce === on.inForce) return last.screen
  const screen = screenFor(on, at)
  if (at === 0) shownLast.set(on.assessment, { bench: on.bench, inForce: on.inForce, screen })
  return screen
}

function screenFor(on: OnBench, at: number): Shown | null {
  const { knowledge, bench, assessment } = on
  if (ending(bench)) return { name: 'case/finished', page: finishedPage(on) }

  const stop = assessment.stops.find(({ grade }) => grade === 'set-aside')
  if (stop) return { name: 'case/stop', page: stopPage(on, found(lookupOf(knowledge).stops, stop.id)) }

  if (!complaintTold(bench)) return null

  const danger = dangerStep(knowledge, bench.kind)
  const open = dangerOpen(on)
  if (danger && open.length > 0) return { name: 'case/danger', page: dangerPage(on, danger, open) }

  const cured = justCured(bench)
  if (cured !== null) return { name: 'case/cured', page: curedPage(on, cured) }

  if (mustLookAgain(bench)) return { name: 'case/now', page: nowPage(on) }
  return nextScreen(on, at)
}

function nextScreen(on: OnBench, at: number): Shown {
  const { knowledge, bench, assessment, situation } = on
  const { steps, fixes, stops } = lookupOf(knowledge)
  const { step: kind, id, questions } = assessment.next
  switch (kind) {
    case 'ask':
    case 'check': {
      const step = found(steps, id)
      const asked = step.questions.filter((question) => questions.includes(question.id))
      if (step.form === 'danger') return { name: 'case/danger', page: dangerPage(on, step, asked) }
      const open = step.questions.filter((question) => situation.answers[question.id] === undefined)
      return { name: 'case/step', page: stepPage(on, step, asked.length > 0 ? asked : open) }
    }
    case 'fix':
    case 'nothing-found': {
      const last = knowledge.fixes.find(({ kinds, ends }) => kinds.includes(bench.kind) && ends !== undefined)
      return { name: 'case/fix', page: fixPage(on, found(fixes, id ?? last?.id ?? null), at) }
    }
    case 'stop':
      return { name: 'case/stop', page: stopPage(on, found(stops, id)) }
    case 'offer':
    case 'send-in':
    case 'retire':
      return { name: 'case/ending', page: endingPage(on) }
  }
}

function found<Thing>(things: ReadonlyMap<string, Thing>, id: string | null): Thing {
  const thing = id === null ? undefined : things.get(id)
  if (!thing) throw new Error(`the diagnosis names "${id}", which is not in the rulebook`)
  return thing
}
