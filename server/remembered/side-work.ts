/**
 * The thread that works for `side-thread.ts`: it prepares a rulebook of its own, then answers one by one. What is short
 * goes first, also where a long sum pauses.
 */
import { setImmediate as immediately } from 'node:timers/promises'
import { parentPort, workerData } from 'node:worker_threads'
import type { Knowledge } from '../../shared/knowledge.js'
import { prepare } from '../diagnosis/prepare.js'
import type { Pause } from './heavy-sums.js'
import { heavySums, isShort } from './heavy-sums.js'
import type { Answered, Asked } from './side-thread.js'

const prepared = prepare(workerData as Knowledge)
const short: Asked[] = []
const long: Asked[] = []
let working = false

parentPort!.on('message', (asked: Asked) => {
  ;(isShort(asked.sum) ? short : long).push(asked)
  if (!working) void work()
})
await prepared
parentPort!.postMessage('ready' satisfies Answered)

async function work(): Promise<void> {
  working = true
  for (let asked; (asked = short.shift() ?? long.shift());) await answer(asked, letShortThrough)
  working = false
}

async function letShortThrough(): Promise<void> {
  await immediately()
  for (let asked; (asked = short.shift());) await answer(asked)
}

async function answer({ id, sum, given }: Asked, pause?: Pause): Promise<void> {
  const answered = await prepared
    .then((it) => (heavySums[sum] as (...what: unknown[]) => Promise<unknown>)(it, given, pause))
    .then(
      (made): Answered => ({ id, made }),
      (error: unknown): Answered => ({ id, failed: String(error) }),
    )
  parentPort!.postMessage(answered)
}
