/** The thread that works for `side-thread.ts`: it prepares a rulebook of its own, then answers one by one. */
import { parentPort, workerData } from 'node:worker_threads'
import type { Knowledge } from '../../shared/knowledge.js'
import { prepare } from '../diagnosis/prepare.js'
import { heavySums } from './heavy-sums.js'
import type { Asked, Answered } from './side-thread.js'

const prepared = prepare(workerData as Knowledge)
let before: Promise<unknown> = prepared

parentPort!.on('message', ({ id, sum, given }: Asked) => {
  before = before
    .then(() => prepared)
    .then((it) => (heavySums[sum] as (...what: unknown[]) => Promise<unknown>)(it, given))
    .then(
      (made): Answered => ({ id, made }),
      (error: unknown): Answered => ({ id, failed: String(error) }),
    )
    .then((answer) => parentPort!.postMessage(answer))
})
