/**
 * Heavy sums off the thread that serves pages: assessments, comparisons, cards, marks of a dry run, debriefs. One thread for
 * the rulebook in use; it is begun anew for another rulebook, or where it broke.
 */
import { setImmediate as immediately } from 'node:timers/promises'
import { Worker } from 'node:worker_threads'
import type { Knowledge } from '../../shared/knowledge.js'
import type { CaseInputs } from '../decision/case-plan.js'
import { deviceNow } from './for-device.js'
import type { DoSum, HeavySum, HeavySums } from './heavy-sums.js'
import { heavySums, isShort } from './heavy-sums.js'

export interface Asked {
  readonly id: number
  readonly sum: HeavySum
  readonly given: unknown
  /** the device for which */
  readonly from: string
}
export type Answered =
  | 'ready'
  | { readonly id: number; readonly made: unknown }
  | { readonly id: number; readonly failed: string }

/** What became of a sum; `broke`: its thread ended before it was done. */
type Outcome = Exclude<Answered, 'ready'> | 'broke'

interface Thread {
  readonly knowledge: Knowledge
  readonly worker: Worker
  readonly waiting: Map<number, (outcome: Outcome) => void>
  state: 'preparing' | 'ready' | 'broken'
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

/** @param log told once of a thread that broke; what it was asked is done all the same, by the thread that serves */
export function sideThread(log: (error: unknown) => void): SideThread {
  let thread: Thread | null = null
  let next = 0
  const threadFor = (knowledge: Knowledge): Thread => {
    if (thread?.knowledge === knowledge) return thread
    // those who wait for the old rulebook are answered first
    if (thread) endWhenAnswered(thread)
    const begun = begin(knowledge, (error, wasReady) => {
      log(error)
      // one that was never of use would break again
      if (wasReady && thread === begun) thread = null
    })
    return (thread = begun)
  }
  return {
    async doSum<Sum extends HeavySum>(
      prepared: Parameters<DoSum>[0],
      sum: Sum,
      given: HeavySums[Sum]['given'],
    ) {
      const { worker, waiting, state } = threadFor(prepared.knowledge)
      // nobody at the bench waits until a thread has prepared its rulebook
      if (state === 'broken' || (state === 'preparing' && isShort(sum)))
        return onThisThread(prepared, sum, given)
      const id = ++next
      const outcome = await new Promise<Outcome>((resolve) => {
        worker.postMessage({ id, sum, given: plain(given), from: deviceNow() } satisfies Asked)
        waiting.set(id, resolve)
      }).catch((error: unknown): Outcome => ({ id, failed: String(error) }))
      if (outcome !== 'broke') {
        if ('made' in outcome) return outcome.made as HeavySums[Sum]['made']
        // a mistake in what was asked is no fault of the thread
        if (outcome.failed.startsWith(mistake)) throw new RangeError(outcome.failed.slice(mistake.length))
        log(outcome.failed)
      }
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

function begin(knowledge: Knowledge, broke: (error: unknown, wasReady: boolean) => void): Thread {
  const worker = new Worker(new URL('side-start.mjs', import.meta.url), {
    workerData: knowledge,
    execArgv: [],
    resourceLimits: { maxOldGenerationSizeMb: mostMegabytes },
  })
  const waiting: Thread['waiting'] = new Map()
  const thread: Thread = { knowledge, worker, waiting, state: 'preparing' }
  worker.on('message', (answer: Answered) => {
    if (answer === 'ready') return void (thread.state = 'ready')
    waiting.get(answer.id)?.(answer)
    waiting.delete(answer.id)
  })
  worker.on('error', (error) => {
    const wasReady = thread.state === 'ready'
    thread.state = 'broken'
    broke(error, wasReady)
  })
  worker.on('exit', () => {
    thread.state = 'broken'
    for (const done of waiting.values()) done('broke')
    waiting.clear()
  })
  worker.unref()
  return thread
}

function endWhenAnswered({ worker, waiting }: Thread): void {
  const end = (): void => void (waiting.size === 0 && worker.terminate())
  worker.on('message', end)
  end()
}
