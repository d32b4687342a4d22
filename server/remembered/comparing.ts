/** The thread that compares cases for `comparing-thread.ts`: it prepares a rulebook of its own, then answers one by one. */
import { parentPort, workerData } from 'node:worker_threads'
import type { Knowledge } from '../../shared/knowledge.js'
import { caseComparison } from '../decision/case-comparison.js'
import { prepare } from '../diagnosis/prepare.js'
import type { Asked, Answered } from './comparing-thread.js'

const prepared = prepare(workerData as Knowledge)

parentPort!.on('message', ({ id, inputs }: Asked) => {
  void prepared
    .then((it) => caseComparison({ ...inputs, prepared: it }))
    .then(
      (made): Answered => ({ id, made }),
      (error: unknown): Answered => ({ id, failed: String(error) }),
    )
    .then((answer) => parentPort!.postMessage(answer))
})
