/** One of the study's processes: takes numbered jobs, sends back results. */
import { loadKnowledge } from '../../server/rulebook/load.js'
import { runCases } from './real-rulebook.js'
import { preparedForStudy } from './setting.js'
import { solveSmall } from './small-problems.js'

export type Job =
  | { readonly study: 'small'; readonly seed: number }
  | { readonly study: 'real'; readonly kind: string; readonly from: number; readonly to: number }

const prepared = preparedForStudy(loadKnowledge())

async function done(job: Job) {
  return job.study === 'small' ? solveSmall(job.seed) : runCases(await prepared, job.kind, job.from, job.to)
}

process.on('message', (job: Job) => {
  void done(job).then((result) => process.send!(result))
})
