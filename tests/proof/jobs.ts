/** The proof cut into jobs of some seconds, so that several processes can share them. What goes in and out is plain data. */
import { bookOf } from '../../shared/book-of-kind.js'
import type { Knowledge } from '../../shared/knowledge.js'
import type { KindFigures } from '../../shared/proof.js'
import type { Prepared } from '../../server/diagnosis/prepare.js'
import { kindOf, prepare } from '../../server/diagnosis/prepare.js'
import { complaintOf, seeing } from '../../server/simulation/complaint.js'
import type { Asker } from '../../server/simulation/interview.js'
import { worldOff } from '../../server/simulation/off.js'
import { drawTool, mainShares } from '../../server/simulation/tool.js'
import { testability } from './ambiguity.js'
import type { Losses } from './confusions.js'
import { confirmedShare } from './confirmed.js'
import { idleQuestions } from './idle-questions.js'
import { markCase } from '../../server/proof/mark-case.js'
import { proofAsker } from '../../server/proof/proof-asker.js'
import { repairItems } from '../../server/proof/repair-items.js'
import { unreachedStops } from './stops-reached.js'
import type { MarkedTool } from './marked-tool.js'
import { lookedAgain } from './second-looks.js'
import { alikePairs, askable, chanceAlone } from './told-apart.js'
import type { WorkDone } from './work.js'
import { toolOfCause, workOn } from './work.js'

/** A stretch of numbered tools, `from` inclusive, `to` exclusive. */
interface Stretch {
  readonly kind: string
  readonly from: number
  readonly to: number
}

/** Tools that are off, and answers that are wrong. */
export interface Trouble {
  /** standard deviation in log-odds; 0 = as the book has them */
  readonly sd: number
  readonly wrong: number
  /** are answers that fit the others least looked at once more? */
  readonly again?: boolean
}

export type Job =
  | { readonly do: 'exact'; readonly kind: string }
  | ({ readonly do: 'isolation' } & Stretch)
  /** so many tools with each cause alone */
  | { readonly do: 'confirm'; readonly kind: string; readonly tools: number }
  /** tools with this main cause, to the end */
  | { readonly do: 'work'; readonly kind: string; readonly cause: number; readonly tools: number }
  | ({ readonly do: 'robust-isolation'; readonly trouble: Trouble } & Stretch)
  | ({ readonly do: 'robust-work'; readonly trouble: Trouble } & Stretch)

export type Exact = Pick<KindFigures, 'detected' | 'grouped' | 'alike' | 'unreached'> & {
  readonly shares: readonly number[]
}

export interface JobResults {
  exact: Exact
  isolation: { readonly tools: readonly MarkedTool[]; readonly idle: readonly string[] }
  confirm: { readonly shares: readonly number[] }
  work: { readonly done: readonly WorkDone[]; readonly losses: readonly (readonly [string, number])[] }
  'robust-isolation': { readonly tools: readonly MarkedTool[] }
  'robust-work': { readonly done: readonly WorkDone[] }
}

/** One kind's rulebook, made ready. */
export interface Bench {
  readonly prepared: Prepared
  readonly asker: Asker
}

/** @throws RangeError for an unknown kind */
export async function proofBench(knowledge: Knowledge, kind: string): Promise<Bench> {
  const book = bookOf(knowledge, kind)
  return { prepared: await prepare(book), asker: await proofAsker(book, kind) }
}

export async function runJob<J extends Job>(bench: Bench, job: J): Promise<JobResults[J['do']]> {
  return (await resultOf(bench, job)) as JobResults[J['do']]
}

function resultOf(bench: Bench, job: Job): Promise<JobResults[Job['do']]> {
  switch (job.do) {
    case 'exact':
      return exactFigures(bench)
    case 'isolation':
      return isolationOf(bench, job)
    case 'confirm':
      return confirmedShares(bench, job)
    case 'work':
      return workWith(bench, job)
    case 'robust-isolation':
      return robustIsolation(bench, job)
    case 'robust-work':
      return robustWork(bench, job)
  }
}

async function exactFigures({ asker }: Bench): Promise<Exact> {
  const { model } = asker
  const items = repairItems(model)
  const shares = [...mainShares(model)]
  const findings = askable(asker)
  const usual = testability(
    shares.map((rate, c) => ({
      rate,
      signature: findings.map((f) => chanceAlone(model, f, c) >= 0.5),
      item: items.of[c]!,
    })),
  )
  return {
    shares,
    detected: usual.detected,
    grouped: [usual.isolatedTo(1), usual.isolatedTo(2), usual.isolatedTo(3)],
    alike: alikePairs(asker, items),
    unreached: await unreachedStops(model),
  }
}

async function isolationOf({ prepared, asker }: Bench, { kind, from, to }: Stretch) {
  const { model } = asker
  const items = repairItems(model)
  const search = idleQuestions(asker, items)
  const seen = seeing(model, kindOf(prepared, kind).effectOfYes)
  const tools: MarkedTool[] = []
  for (let number = from; number < to; number++) {
    const marked = await markCase(asker, items, model, number)
    search.see(marked.told, complaintOf(model, marked.tool, seen))
    tools.push(bare(marked))
  }
  return { tools, idle: search.left() }
}

async function confirmedShares({ asker }: Bench, { tools }: Extract<Job, { do: 'confirm' }>) {
  const shares: number[] = []
  for (const cause of asker.model.causes.keys()) shares.push(await confirmedShare(asker, cause, tools))
  return { shares }
}

async function workWith({ prepared }: Bench, { kind, cause, tools }: Extract<Job, { do: 'work' }>) {
  const losses: Losses = new Map()
  const done: WorkDone[] = []
  for (let k = 0; k < tools; k++)
    done.push(await workOn(prepared, kind, toolOfCause(prepared, kind, cause, k), 0, losses))
  return { done, losses: [...losses] }
}

/** Every tool in a world of its own. */
async function robustIsolation(
  { asker }: Bench,
  { from, to, trouble: { sd, wrong, again } }: Extract<Job, { do: 'robust-isolation' }>,
) {
  const items = repairItems(asker.model)
  const tools: MarkedTool[] = []
  for (let number = from; number < to; number++) {
    if (again) {
      tools.push(await lookedAgain(asker, items, number, wrong))
      continue
    }
    const world = sd === 0 ? asker.model : worldOff(asker.model, sd, number)
    tools.push(bare(await markCase(asker, items, world, number, wrong)))
  }
  return { tools }
}

async function robustWork(
  { prepared }: Bench,
  { kind, from, to, trouble: { sd, wrong } }: Extract<Job, { do: 'robust-work' }>,
) {
  const { model } = kindOf(prepared, kind)
  const done: WorkDone[] = []
  for (let number = from; number < to; number++) {
    const world = sd === 0 ? model : worldOff(model, sd, number)
    done.push(await workOn(prepared, kind, drawTool(world, number), wrong))
  }
  return { done }
}

const bare = ({ places, within, inTurn, repairs, causePlaces }: MarkedTool): MarkedTool => ({
  places,
  within,
  inTurn,
  repairs,
  causePlaces,
})
