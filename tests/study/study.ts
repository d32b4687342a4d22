/**
 * npm run study [-- --rulebooks 300 --cases 6000]: how good the plan is. Prints two tables: small random
 * rulebooks against their exact optimum, and simulated cases over the real rulebook beside other policies.
 * Seeds are fixed; the same numbers come out each time. Takes about half an hour on two cores.
 */
import { parseArgs } from 'node:util'
import { inProcesses } from './in-processes.js'
import type { CaseResult } from './real-rulebook.js'
import { ourName, tableOf } from './real-rulebook.js'
import type { SmallResult } from './small-problems.js'
import { smallPolicies, spread } from './small-problems.js'
import type { Job } from './worker.js'

const { values } = parseArgs({
  options: {
    rulebooks: { type: 'string', default: '300' },
    cases: { type: 'string', default: '6000' },
    kind: { type: 'string', default: 'universal-motor' },
  },
})

function printSmall(results: readonly SmallResult[]): void {
  console.log(
    `\n${results.length} random rulebooks, 5 to 7 causes, questions and fixes: cost over the optimum`,
  )
  console.log('policy                            mean     95th    largest')
  for (const name of Object.keys(smallPolicies)) {
    const { mean, p95, max } = spread(results.map((r) => r.over[name]!))
    console.log(`${name.padEnd(32)} ${mean.toFixed(4)}  ${p95.toFixed(4)}  ${max.toFixed(4)}`)
  }
  const solved = results.flatMap((r) => (r.endgame === null ? [] : [r.endgame]))
  if (solved.length > 0) {
    const { mean, max } = spread(solved)
    console.log(
      `endgame on, where it applies (${solved.length} rulebooks): mean ${mean.toFixed(6)}, largest ${max.toFixed(6)}`,
    )
  }
  console.log('marks: ours, endgame off, mean at most 1.01 and 95th percentile at most 1.03')
}

function printReal(results: readonly CaseResult[]): void {
  const table = tableOf(results)
  const percent = (share: number) => `${(100 * share).toFixed(1)} %`
  console.log(
    `\n${table.cases} simulated cases (${table.setAside} more ended by a set-aside, left out for all policies);` +
      ` who knows the causes pays ${table.clairvoyant.toFixed(2)} and sends in ${percent(table.needService)}`,
  )
  console.log(
    'policy                        screens  90th  fixes  minutes  fixed or   sent in   cost    ±       over',
  )
  console.log('                                                           rightly in')
  for (const r of table.rows) {
    console.log(
      [
        r.policy.padEnd(28),
        r.screens.toFixed(2).padStart(7),
        String(r.screens90).padStart(6),
        r.fixes.toFixed(2).padStart(6),
        r.minutes.toFixed(1).padStart(8),
        percent(r.mendedOrRight).padStart(10),
        percent(r.sentIn).padStart(9),
        r.cost.toFixed(2).padStart(8),
        r.standardError.toFixed(2).padStart(6),
        r.over.toFixed(2).padStart(8),
      ].join(' '),
    )
  }
  const mine = table.rows.find((r) => r.policy === ourName)!
  const best = Math.min(...table.rows.filter((r) => r.policy !== ourName).map((r) => r.over))
  console.log(
    `marks: at most 7 screens (${mine.screens.toFixed(2)}), 12 at the 90th (${mine.screens90}); ` +
      `at least 92 % fixed or rightly sent in (${percent(mine.mendedOrRight)}); ` +
      `over at most 0.90 of the best other policy's (${(mine.over / best).toFixed(3)})`,
  )
}

const worker = new URL('./worker.ts', import.meta.url)
const rulebooks = Number(values.rulebooks)
if (rulebooks > 0) {
  const seeds = Array.from({ length: rulebooks }, (_, k): Job => ({ study: 'small', seed: 1000 + k }))
  printSmall(await inProcesses<Job, SmallResult>(worker, seeds))
}
const cases = Number(values.cases)
if (cases > 0) {
  const size = 25
  const jobs = Array.from({ length: Math.ceil(cases / size) }, (_, k): Job => {
    return { study: 'real', kind: values.kind, from: k * size, to: Math.min(cases, (k + 1) * size) }
  })
  printReal((await inProcesses<Job, CaseResult[]>(worker, jobs)).flat())
}
