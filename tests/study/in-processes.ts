/** Jobs shared out over as many processes as the machine has cores. */
import { fork } from 'node:child_process'
import { availableParallelism } from 'node:os'
import { fileURLToPath } from 'node:url'
import { runner } from '../runner.js'

/** The workers take all cores: helping threads of their own, and copying what is soon gone, only cost. */
const execArgv = ['--max-semi-space-size=64', '--single-threaded']

/**
 * @param worker  a script that answers each message, a job, with one message, its result
 * @param settled called with each result as it comes
 * @returns the results in the order of the jobs
 * @throws Error when a process ends before its jobs are done
 */
export async function inProcesses<Job, Result>(
  worker: URL,
  jobs: readonly Job[],
  settled: (done: number) => void = () => undefined,
): Promise<Result[]> {
  const results: Result[] = []
  let next = 0
  let done = 0
  const one = () =>
    new Promise<void>((resolve, reject) => {
      const child = fork(runner, [fileURLToPath(worker)], { execArgv })
      let current = -1
      const give = () => {
        current = next++
        if (current < jobs.length) child.send(jobs[current]!)
        else child.disconnect()
      }
      child.on('message', (result) => {
        results[current] = result as Result
        settled(++done)
        give()
      })
      child.on('error', reject)
      child.on('exit', (code) => (code === 0 ? resolve() : reject(new Error(`a process ended with ${code}`))))
      give()
    })
  await Promise.all(Array.from({ length: Math.min(availableParallelism(), jobs.length) }, one))
  return results
}
