/** One of the study's processes: takes numbered jobs, sends back results. */
import { runCases } from './real-rulebook.js'
import { solveSmall } from './small-problems.js'

export type Job =
  | { readonly study: 'small'; readonly seed: number }
  | { readonly study: 'real'; readonly kind: string; readonly from: number; readonly to: number }

process.on('message', (job: Job) => {
  void (
    job.study === 'small' ? Promise.resolve(solveSmall(job.seed)) : runCases(job.kind, job.from, job.to)
  ).then((result) => process.send!(result))
})
