import type { Stop } from '../../../shared/knowledge.js'
import { cutsPower } from '../../../shared/setups-needed.js'
import { clearAddress } from './clear-page.js'
import type { Frame } from '../layout/frame.js'
import { caseFrame } from '../layout/frame.js'
import { lookupOf } from '../../../shared/rulebook-index.js'
import type { OnBench } from '../../bench/on-bench.js'
import { questionsOfStop } from '../../bench/on-bench.js'

export interface StopPage {
  readonly frame: Frame
  readonly seen: number
  readonly mild: boolean
  readonly name: string
  /** what to do at once; the rest is folded */
  readonly now: readonly string[]
  readonly then: readonly string[]
  readonly firstAid: readonly string[]
  readonly why: string
  readonly lift: string
  readonly liftedBy: string
  /** what was said that set it off */
  readonly said: readonly string[]
  readonly lifted: boolean
  readonly forms: {
    readonly mistake: string
    readonly clear: string
    readonly finish: string
    readonly goOn: string | null
    readonly slip: string
  }
}

/** Words that somebody reads who holds the thing in the hand. */
const mostWords = 45

/** The first lines of what to do, as far as they are read at a glance, and the others. */
function nowAndThen(lines: readonly string[]): {
  readonly now: readonly string[]
  readonly then: readonly string[]
} {
  let words = 0
  const at = lines.findIndex((line, k) => (words += line.split(/\s+/).length) > mostWords && k > 0)
  return at < 0 ? { now: lines, then: [] } : { now: lines.slice(0, at), then: lines.slice(at) }
}

/** What to do now. A set-aside ends the work until it is lifted; the milder grade lets it go on unplugged. */
export function stopPage(on: OnBench, stop: Stop): StopPage {
  const { knowledge, bench } = on
  const mild = stop.grade === 'off-the-client'
  const at = `/cases/${bench.id}/stops/${stop.id}`
  return {
    frame: caseFrame(knowledge, bench, stop.name, { at: mild ? null : '' }),
    seen: bench.events.length,
    mild,
    name: stop.name,
    ...nowAndThen(stop.now),
    firstAid: stop.firstAid,
    why: stop.why,
    lift: stop.lift,
    liftedBy: stop.liftedBy,
    said: saidFor(on, stop),
    lifted: on.situation.stopsLifted.includes(stop.id),
    forms: {
      mistake: `${at}/mistake`,
      clear: clearAddress(bench.id, stop.id),
      finish: `/cases/${bench.id}/finish`,
      goOn: mild ? `/cases/${bench.id}` : null,
      slip: `/cases/${bench.id}/slip`,
    },
  }
}

export interface MistakePage {
  readonly frame: Frame
  readonly action: string
  readonly seen: number
  readonly back: string
  readonly name: string
  readonly question: string
  readonly said: readonly string[]
}

/** The one more question before a mistaken tick is taken back. */
export function mistakePage(on: OnBench, stop: Stop): MistakePage {
  const { knowledge, bench } = on
  const at = `/cases/${bench.id}/stops/${stop.id}`
  return {
    frame: caseFrame(knowledge, bench, 'Was it a mistake?'),
    action: `${at}/mistake`,
    seen: bench.events.length,
    back: at,
    name: stop.name,
    question: stop.checkQuestion,
    said: saidFor(on, stop),
  }
}

/** The answers that a mistake takes back: those given to the questions of the stop. */
export function mistaken(on: OnBench, stop: Stop): readonly string[] {
  return questionsOfStop(on.knowledge, stop).filter(
    (question) => on.situation.answers[question] !== undefined,
  )
}

function saidFor(on: OnBench, stop: Stop): readonly string[] {
  const { questions } = lookupOf(on.knowledge)
  return mistaken(on, stop).flatMap((question) => questions.get(question)?.question.statement ?? [])
}

/** Stops that are on and do not end the work: told of on every page of the work, with what to do. */
export interface StopBand {
  readonly name: string
  /** how it is without power: "Plug out"; empty where the page says it itself */
  readonly off: string
  readonly href: string
  readonly clear: string
  readonly now: readonly string[]
}

/** The milder stops that are on and not lifted. */
export function stopBands(on: OnBench): readonly StopBand[] {
  const { stops } = lookupOf(on.knowledge)
  return on.assessment.stops
    .filter(({ grade }) => grade === 'off-the-client')
    .map(({ id, now }) => ({
      name: stops.get(id)?.name ?? id,
      off: on.knowledge.setups.find(cutsPower)?.name ?? 'No power',
      href: `/cases/${on.bench.id}/stops/${id}`,
      clear: clearAddress(on.bench.id, id),
      now,
    }))
}
