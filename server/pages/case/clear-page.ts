import type { Stop } from '../../../shared/knowledge.js'
import type { OnBench } from '../../bench/on-bench.js'
import type { Problem } from '../../forms/answer-form.js'
import type { Frame } from '../layout/frame.js'
import { caseFrame } from '../layout/frame.js'

/** The act that ends a stop, and who did it. */
export interface ClearPage {
  readonly frame: Frame
  readonly action: string
  readonly seen: number
  readonly name: string
  readonly lift: string
  readonly liftedBy: string
  /** who did it, as far as it was typed */
  readonly by: string
  readonly problems: readonly Problem[]
}

export function clearPage(on: OnBench, stop: Stop, by = '', problems: readonly Problem[] = []): ClearPage {
  const { knowledge, bench } = on
  const title = `Clear: ${stop.name}`
  return {
    frame: caseFrame(knowledge, bench, title, { error: problems.length > 0 }),
    action: clearAddress(bench.id, stop.id),
    seen: bench.events.length,
    name: title,
    lift: stop.lift,
    liftedBy: stop.liftedBy,
    by,
    problems,
  }
}

export const clearAddress = (bench: string, stop: string): string => `/cases/${bench}/stops/${stop}/lift`
