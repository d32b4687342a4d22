/**
 * npm run prove [-- --all | --kind rotary-corded] [--tools 1000 --courses 60 --off-tools 300 --off-courses 8]: measures how good
 * the rulebook is and writes server/proof/figures.json, which the page /rulebook/proof shows. Tools are numbered, so the
 * same figures come out each time. Measured are the kinds whose rules have changed since; all of them with --all, those
 * named with --kind (more than once, if need be). The repairs that others told are done anew each time.
 */
import { writeFileSync } from 'node:fs'
import { parseArgs } from 'node:util'
import { isolationMarks, ProofFigures, ProofSettings } from '../../shared/proof.js'
import type { Estimate, KindFigures } from '../../shared/proof.js'
import type { Knowledge } from '../../shared/knowledge.js'
import { prepare } from '../../server/diagnosis/prepare.js'
import { KnowledgeError } from '../../server/errors.js'
import { loadKnowledge } from '../../server/rulebook/load.js'
import { figuresFile, readFigures } from '../../server/proof/figures-file.js'
import type { Bench, Job } from './jobs.js'
import { proofBench } from './jobs.js'
import type { Done } from './kind-figures.js'
import { jobsOf, kindFigures } from './kind-figures.js'
import { kindDigest } from '../../server/proof/kind-digest.js'
import { inProcesses } from '../study/in-processes.js'
import { toldReport } from './told-report.js'
import { storiesOf, toldFigures } from './told-stories.js'
import { recordLines } from '../record-lines.js'

const { values } = parseArgs({
  options: {
    kind: { type: 'string', multiple: true },
    all: { type: 'boolean', default: false },
    tools: { type: 'string', default: '1000' },
    courses: { type: 'string', default: '60' },
    'off-tools': { type: 'string', default: '300' },
    'off-courses': { type: 'string', default: '8' },
  },
})
/** Ends with what to do instead, and no stack. */
function refuse(words: string): never {
  console.error(words)
  process.exit(1)
}

function count(option: 'tools' | 'courses' | 'off-tools' | 'off-courses'): number {
  const given = Number(values[option])
  if (Number.isInteger(given) && given >= 1) return given
  return refuse(`--${option} ${values[option]}: give a whole number from 1 up`)
}

const settings = ProofSettings.parse({
  tools: count('tools'),
  courses: count('courses'),
  offTools: count('off-tools'),
  offCourses: count('off-courses'),
  spread: 0.7,
  seeds: 'tools numbered from 0; of one main cause from the number that its id gives',
})

const began = Date.now()
const say = (words: string) => console.log(`${Math.round((Date.now() - began) / 1000)} s  ${words}`)
const knowledge = knowledgeOrRefuse()
const kindsKnown = knowledge.kinds.map(({ id }) => id)
for (const kind of values.kind ?? [])
  if (!kindsKnown.includes(kind))
    refuse(`--kind ${kind}: there is no such kind; there are ${kindsKnown.join(', ')}`)
const before = values.all ? {} : (readFigures()?.kinds ?? {})
const kinds =
  values.kind ?? kindsKnown.filter((kind) => before[kind]?.rulebook !== kindDigest(knowledge, kind))
const benches = new Map<string, Bench>()
for (const kind of kinds) benches.set(kind, await proofBench(knowledge, kind))

const jobs = [...benches].flatMap(([kind, bench]) => jobsOf(bench, kind, settings))
let told = 0
const results = await inProcesses<Job, Done['result']>(
  new URL('./worker.ts', import.meta.url),
  jobs,
  (count) => {
    if (count < (told + 1) * 0.1 * jobs.length) return
    told = Math.floor((10 * count) / jobs.length)
    say(`${count} of ${jobs.length} jobs`)
  },
)

const figures = ProofFigures.parse({
  kinds: Object.fromEntries(
    knowledge.kinds.flatMap(({ id: kind }): [string, KindFigures][] => {
      const bench = benches.get(kind)
      if (!bench) return before[kind] ? [[kind, before[kind]]] : []
      const done = jobs
        .map((job, k) => ({ job, result: results[k]! }) as Done)
        .filter(({ job }) => job.kind === kind)
      return [[kind, kindFigures(bench, kind, kindDigest(knowledge, kind), settings, done)]]
    }),
  ),
  told: await toldFigures(await prepare(knowledge), storiesOf(knowledge)),
})
const text = JSON.stringify(figures, (_, value: unknown) =>
  typeof value === 'number' ? short(value) : value,
)
writeFileSync(figuresFile, recordLines(JSON.parse(text)))
printed(figures)
say('server/proof/figures.json is written')

function knowledgeOrRefuse(): Knowledge {
  try {
    return loadKnowledge()
  } catch (error) {
    if (error instanceof KnowledgeError) return refuse(error.message)
    throw error
  }
}

/** Six digits are more than any figure is good for. */
function short(value: number): number {
  return Number(value.toPrecision(6))
}

function printed({ kinds: all, told: stories }: ProofFigures): void {
  const of100 = ({ mean, se }: Estimate) => `${(100 * mean).toFixed(1)} ± ${(100 * se).toFixed(1)}`
  console.log(
    `\nIsolated to 1, 2, 3 repairs, of 100 tools; marks ${isolationMarks.map((m) => 100 * m).join(', ')}`,
  )
  for (const [kind, it] of Object.entries(all)) {
    console.log(`${kind.padEnd(20)} ${it.isolation.map(of100).join('   ')}   at best ${of100(it.atBest[0])}`)
    const { steps, minutes, cost } = it.work
    console.log(
      `${''.padEnd(20)} steps ${steps.mean.toFixed(1)}, minutes ${minutes.mean.toFixed(0)}, cost ${cost.mean.toFixed(1)} ± ` +
        `${cost.se.toFixed(1)}; alike ${it.alike.length}, idle ${it.idle.length}, unconfirmed ${it.unconfirmed.length}, ` +
        `stops unreached ${it.unreached.length}`,
    )
    for (const { again, wrong, lost } of it.robust)
      if (wrong > 0 && lost)
        console.log(
          `${''.padEnd(20)} ${100 * wrong} of 100 answers wrong${again ? ', looked at again' : ''}: first repairs lost ${of100(lost)}`,
        )
  }
  console.log(toldReport(stories.causes).join('\n'))
}
