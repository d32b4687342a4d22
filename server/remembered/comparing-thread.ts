/**
 * Cases compared off the thread that serves pages: a comparison takes some plans, and nobody else waits for them. One
 * thread for the rulebook in use; it is begun anew for another rulebook, or where it broke.
 */
import { Worker } from 'node:worker_threads'
import type { Knowledge } from '../../shared/knowledge.js'
import type { CaseComparison } from '../decision/case-comparison.js'
import { caseComparison } from '../decision/case-comparison.js'
import type { CaseInputs } from '../decision/case-plan.js'

/** A case, and what it comes to. */
export type Compare = (inputs: CaseInputs) => Promise<CaseComparison>

export interface Asked {
  readonly id: number
  readonly inputs: Omit<CaseInputs, 'prepared'>
}
export type Answered =
  { readonly id: number; readonly made: CaseComparison } | { readonly id: number; readonly failed: string }

interface Thread {
  readonly knowledge: Knowledge
  readonly worker: Worker
  readonly waiting: Map<number, (answer: Answered) => void>
}

export interface ComparingThread {
  readonly compare: Compare
  /** so that the first comparison does not wait for the preparing */
  warm(knowledge: Knowledge): void
  close(): Promise<void>
}

/** @param log told of a thread that broke; the page is answered all the same, by this thread */
export function comparingThread(log: (error: unknown) => void): ComparingThread {
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
    async compare({ prepared, ...inputs }) {
      const { worker, waiting } = threadFor(prepared.knowledge)
      const id = ++next
      const answer = await new Promise<Answered>((resolve) => {
        worker.postMessage({ id, inputs: plain(inputs) } satisfies Asked)
        waiting.set(id, resolve)
      }).catch((error: unknown): Answered => ({ id, failed: String(error) }))
      if ('made' in answer) return answer.made
      log(answer.failed)
      return caseComparison({ ...inputs, prepared })
    },
    warm: (knowledge) => void threadFor(knowledge),
    async close() {
      await thread?.worker.terminate()
    },
  }
}

/** Only what a comparison reads: the rest of an assessment is worked out when it is asked for, and would be for the copy. */
function plain(inputs: Omit<CaseInputs, 'prepared'>): Omit<CaseInputs, 'prepared'> {
  const { findings, evidence, fired, stops, next } = inputs.assessment
  return { ...inputs, assessment: { findings, evidence, fired, stops, next } }
}

function begin(knowledge: Knowledge, broke: (error: unknown) => void): Thread {
  const worker = new Worker(new URL('comparing-start.mjs', import.meta.url), {
    workerData: knowledge,
    execArgv: [],
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
  worker.on('exit', () => waiting.size > 0 && failed('the comparing thread ended'))
  worker.unref()
  return { knowledge, worker, waiting }
}

function endWhenAnswered({ worker, waiting }: Thread): void {
  const end = (): void => void (waiting.size === 0 && worker.terminate())
  worker.on('message', end)
  end()
}
