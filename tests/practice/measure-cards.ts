/**
 * `npm run cards [-- --kind rotary-corded --complaints 5 --tools 40 --stale]`: measures what the plan on paper costs beside the
 * full plan, for the commonest complaints of each kind, and writes server/practice/card-figures.json, which the cards
 * show. Tools are numbered, so the same figures come out each time, and both plans get the same tools. With --kind
 * (more than once, if need be) the figures of the other kinds stay, with --stale those of every card that is as it was.
 * A tool takes a second or two.
 */
import { writeFileSync } from 'node:fs'
import { parseArgs } from 'node:util'
import type { CardFigure } from '../../shared/card-figures.js'
import { CardFigures, cardMark } from '../../shared/card-figures.js'
import { cardFiguresFile, readCardFigures } from '../../server/practice/card-figures-file.js'
import { kindOf, prepare } from '../../server/diagnosis/prepare.js'
import { loadKnowledge } from '../../server/rulebook/load.js'
import { compileCard } from '../../server/practice/card.js'
import { cardShop } from '../../server/practice/card-start.js'
import { paperDigest } from '../../server/practice/card-figures.js'
import { commonestComplaints } from '../../server/practice/card-tools.js'
import { kindDigest } from '../../server/proof/kind-digest.js'
import { inProcesses } from '../study/in-processes.js'
import type { CardJob } from './card-worker.js'
import { recordLines } from '../record-lines.js'

const { values } = parseArgs({
  options: {
    kind: { type: 'string', multiple: true },
    complaints: { type: 'string', default: '5' },
    tools: { type: 'string', default: '40' },
    stale: { type: 'boolean', default: false },
  },
})
const knowledge = loadKnowledge()
const prepared = await prepare(knowledge)
const kinds = values.kind ?? knowledge.kinds.map(({ id }) => id)
const before = values.kind || values.stale ? (readCardFigures()?.kinds ?? {}) : {}
const all = kinds.flatMap((kind) =>
  commonestComplaints(kindOf(prepared, kind), Number(values.complaints)).map((complaint) => ({
    kind,
    complaint,
    tools: Number(values.tools),
  })),
)
const kept = new Map<CardJob, CardFigure>()
for (const job of values.stale ? all : []) {
  const known = before[job.kind]
  const figure = known?.complaints[job.complaint]
  if (!figure || known.rulebook !== kindDigest(knowledge, job.kind) || figure.tools < job.tools) continue
  const card = await compileCard(kindOf(prepared, job.kind), job.complaint, cardShop)
  if (paperDigest(card) === figure.paper) kept.set(job, figure)
}
const jobs = all.filter((job) => !kept.has(job))
const began = Date.now()
const results = await inProcesses<CardJob, CardFigure>(
  new URL('./card-worker.ts', import.meta.url),
  jobs,
  (done) => console.log(`${Math.round((Date.now() - began) / 1000)} s  ${done} of ${jobs.length} cards`),
)

const figures = CardFigures.parse({
  kinds: Object.fromEntries(
    knowledge.kinds.flatMap(({ id }) => {
      if (!kinds.includes(id)) return before[id] ? [[id, before[id]]] : []
      const complaints = all
        .filter(({ kind }) => kind === id)
        .map((job) => [job.complaint, kept.get(job) ?? results[jobs.indexOf(job)]!])
      return [[id, { rulebook: kindDigest(knowledge, id), complaints: Object.fromEntries(complaints) }]]
    }),
  ),
})
// digits beyond what a figure is good for are left out; the digest of a paper is no figure
const text = JSON.stringify(figures, (_, value: unknown) =>
  typeof value === 'number' && !Number.isInteger(value) ? Number(value.toPrecision(5)) : value,
)
writeFileSync(cardFiguresFile, recordLines(JSON.parse(text)))
printed()

function printed(): void {
  console.log(
    `A minute is one of a trained hand, ${cardShop.rate} a minute; money is hands, parts and what the end costs ` +
      `(service ${cardShop.sendIn}, new tool ${cardShop.replace}), in no currency.`,
  )
  console.log(
    'complaint | tools | questions | full plan, money and minutes | card, minutes | in 100 of it: card costs more ± error, ' +
      `its moves lose ± error (mark ${100 * cardMark}), goes on without it`,
  )
  for (const [kind, { complaints }] of Object.entries(figures.kinds))
    for (const [complaint, it] of Object.entries(complaints)) {
      const of100 = ({ mean, se }: CardFigure['more']) =>
        `${((100 * mean) / it.full).toFixed(1)} ± ${((100 * se) / it.full).toFixed(1)}`
      console.log(
        `${kind}, ${complaint} | ${it.tools} | ${it.questions} | ${it.full.toFixed(1)}, ${it.fullMinutes.toFixed(1)} | ` +
          `${it.minutes.toFixed(1)} | ${of100(it.more)}, ${of100(it.lost)}, ${(100 * it.left).toFixed(0)}`,
      )
    }
}
