/**
 * The thread that works for `side-thread.ts`: it prepares a rulebook of its own, then answers one by one. What is short
 * goes first, also where a long sum pauses, and each device in its turn.
 */
import { setImmediate as immediately } from 'node:timers/promises'
import { parentPort, workerData } from 'node:worker_threads'
import type { Knowledge } from '../../shared/knowledge.js'
import { prepare } from '../diagnosis/prepare.js'
import type { Pause } from './heavy-sums.js'
import { heavySums, isShort } from './heavy-sums.js'
import type { Answered, Asked } from './side-thread.js'

const prepared = prepare(workerData as Knowledge)
/** by device, the one whose turn it is first */
const short = new Map<string, Asked[]>()
const long: Asked[] = []
let working = false

parentPort!.on('message', (asked: Asked) => {
  const { from, sum } = asked
  if (!isShort(sum)) long.push(asked)
  else short.set(from, [...(short.get(from) ?? []), asked])
  if (!working) void work()
})
await prepared
parentPort!.postMessage('ready' satisfies Answered)

async function work(): Promise<void> {
  working = true
  await inTurn(() => nextShort() ?? long.shift(), letShortThrough)
  working = false
}

const letShortThrough = (): Promise<void> => inTurn(nextShort)

async function inTurn(next: () => Asked | undefined, pause?: Pause): Promise<void> {
  for (;;) {
    // what came meanwhile is in the line before the next is chosen
    await immediately()
    const asked = next()
    if (!asked) return
    await answer(asked, pause)
  }
}

function nextShort(): Asked | undefined {
  const [turn] = short
  if (!turn) return undefined
  const [from, [first, ...others]] = turn
  short.delete(from)
  if (others.length > 0) short.set(from, others)
  return first
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
