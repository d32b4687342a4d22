/** One of the proof's processes: takes jobs, sends back results. */
import { loadKnowledge } from '../../server/rulebook/load.js'
import type { Bench, Job } from './jobs.js'
import { proofBench, runJob } from './jobs.js'

const knowledge = loadKnowledge()
const benches = new Map<string, Promise<Bench>>()

function benchOf(kind: string): Promise<Bench> {
  let bench = benches.get(kind)
  if (!bench) benches.set(kind, (bench = proofBench(knowledge, kind)))
  return bench
}

process.on('message', (job: Job) => {
  void benchOf(job.kind)
    .then((bench) => runJob(bench, job))
    .then((result) => process.send!(result))
})
