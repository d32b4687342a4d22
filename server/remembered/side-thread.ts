/**
 * Heavy sums off the thread that serves pages: comparisons, cards, marks of a dry run, debriefs. One thread for the rulebook in
 * use; it is begun anew for another rulebook, or where it broke.
 */
import { setImmediate as immediately } from 'node:timers/promises'
import { Worker } from 'node:worker_threads'
import type { Knowledge } from '../../shared/knowledge.js'
import type { CaseInputs } from '../decision/case-plan.js'
import type { DoSum, HeavySum, HeavySums } from './heavy-sums.js'
import { heavySums } from './heavy-sums.js'

export interface Asked {
  readonly id: number
  readonly sum: HeavySum
  readonly given: unknown
}
export type Answered =
  | { readonly id: number; readonly made: unknown }
  | { readonly id: number; readonly failed: string }

interface Thread {
  readonly knowledge: Knowledge
  readonly worker: Worker
  readonly waiting: Map<number, (answer: Answered) => void>
}

export interface SideThread {
  readonly doSum: DoSum
  /** so that the first sum does not wait for the preparing */
  warm(knowledge: Knowledge): void
  close(): Promise<void>
}

/** The same sums on the thread that asks, which gives way to others between two steps. */
export const onThisThread: DoSum = (prepared, sum, given) =>
  heavySums[sum](prepared, given, () => immediately())

const mistake = 'RangeError: '

/** What a thread may take; what it needs is about a third of it. */
const mostMegabytes = 300

/** @param log told of a thread that broke; the page is answered all the same, by this thread */
export function sideThread(log: (error: unknown) => void): SideThread {
  let thread: Thread | null = null
  let next = 0
  const threadFor = (knowledge: Knowledge): Thread => {
    if (thread?.knowledge === knowledge) return thread
    const old = thread
    // those who wait for the old rulebook are answered first
    if (old) endWhenAnswered(old)
    const begun = begin(knowledge, (error) => {
      log(error)
      if (thread === begun) thread = null
    })
    return (thread = begun)
  }
  return {
    async doSum<Sum extends HeavySum>(
      prepared: Parameters<DoSum>[0],
      sum: Sum,
      given: HeavySums[Sum]['given'],
    ) {
      const { worker, waiting } = threadFor(prepared.knowledge)
      const id = ++next
      const answer = await new Promise<Answered>((resolve) => {
        worker.postMessage({ id, sum, given: plain(given) } satisfies Asked)
        waiting.set(id, resolve)
      }).catch((error: unknown): Answered => ({ id, failed: String(error) }))
      if ('made' in answer) return answer.made as HeavySums[Sum]['made']
      // a mistake in what was asked is no fault of the thread
      if (answer.failed.startsWith(mistake)) throw new RangeError(answer.failed.slice(mistake.length))
      log(answer.failed)
      return onThisThread(prepared, sum, given)
    },
    warm: (knowledge) => void threadFor(knowledge),
    async close() {
      await thread?.worker.terminate()
    },
  }
}

/** Only what a comparison reads: the rest of an assessment is worked out when it is asked for, and would be for the copy. */
function plain(given: HeavySums[HeavySum]['given']): unknown {
  if (!('assessment' in given)) return given
  const { findings, evidence, fired, stops, next } = given.assessment
  const inputs: Omit<CaseInputs, 'prepared'> = {
    ...given,
    assessment: { findings, evidence, fired, stops, next },
  }
  return inputs
}

function begin(knowledge: Knowledge, broke: (error: unknown) => void): Thread {
  const worker = new Worker(new URL('side-start.mjs', import.meta.url), {
    workerData: knowledge,
    execArgv: [],
    resourceLimits: { maxOldGenerationSizeMb: mostMegabytes },
  })
  const waiting = new Map<number, (answer: Answered) => void>()
  const answered = (answer: Answered): void => {
    waiting.get(answer.id)?.(answer)
    waiting.delete(answer.id)
  }
  const failed = (error: unknown): void => {
    broke(error)
    for (const id of [...waiting.keys()]) answered({ id, failed: String(error) })
  }
  worker.on('message', answered)
  worker.on('error', failed)
  worker.on('exit', () => waiting.size > 0 && failed('the side thread ended'))
  worker.unref()
  return { knowledge, worker, waiting }
}

function endWhenAnswered({ worker, waiting }: Thread): void {
  const end = (): void => void (waiting.size === 0 && worker.terminate())
  worker.on('message', end)
  end()
}
