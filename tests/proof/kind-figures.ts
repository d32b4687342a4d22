/** The jobs of one kind, and their results put together to its figures. */
import type { Estimate, KindFigures, ProofSettings, RobustRow } from '../../shared/proof.js'
import type { Bench, Exact, Job, JobResults, Trouble } from './jobs.js'
import type { MarkedTool } from './marked-tool.js'
import { meanOf, sharesWithin } from '../../server/proof/shares.js'
import type { WorkDone } from './work.js'
import { toolsPerCause, workOf } from './work.js'

/** The rows of the robustness table; the undisturbed one is the measure of the others. */
function troubles(spread: number): readonly Trouble[] {
  return [
    { sd: 0, wrong: 0 },
    { sd: spread, wrong: 0 },
    { sd: 0, wrong: 0.05 },
    { sd: 0, wrong: 0.05, again: true },
    { sd: 0, wrong: 0.1 },
  ]
}

/** A job with its result, in the order of `jobsOf`. */
export type Done = {
  [D in Job['do']]: { readonly job: Extract<Job, { do: D }>; readonly result: JobResults[D] }
}[Job['do']]

const atOnce = { isolation: 250, work: 10, again: 50 } as const

/** Tools and courses of each kind that `npm test` simulates again. */
export const sampleSize = { tools: 150, courses: 4 } as const

/** Tools with each cause alone, to see whether it can be confirmed. */
const confirmTools = 60

export function jobsOf({ prepared }: Bench, kind: string, settings: ProofSettings): Job[] {
  const stretches = (total: number, size: number) =>
    Array.from({ length: Math.ceil(total / size) }, (_, k) => ({
      kind,
      from: k * size,
      to: Math.min(total, (k + 1) * size),
    }))
  return [
    { do: 'exact', kind },
    { do: 'confirm', kind, tools: confirmTools },
    ...toolsPerCause(prepared, kind, settings.courses).map((tools, cause): Job => ({
      do: 'work',
      kind,
      cause,
      tools,
    })),
    ...troubles(settings.spread).flatMap((trouble): Job[] => [
      ...stretches(trouble.again ? 0 : settings.offCourses, atOnce.work).map((stretch): Job => ({
        do: 'robust-work',
        trouble,
        ...stretch,
      })),
      // the undisturbed tools are those of the isolation, as far as they go
      ...stretches(
        isUndisturbed(trouble) ? 0 : settings.offTools,
        trouble.again ? atOnce.again : atOnce.isolation,
      ).map((stretch): Job => ({
        do: 'robust-isolation',
        trouble,
        ...stretch,
      })),
    ]),
    ...stretches(settings.tools, atOnce.isolation).map((stretch): Job => ({ do: 'isolation', ...stretch })),
  ]
}

/** @param done every job of `jobsOf` with its result, in that order */
export function kindFigures(
  { prepared }: Bench,
  kind: string,
  rulebook: string,
  settings: ProofSettings,
  done: readonly Done[],
): KindFigures {
  const { shares, ...exact } = resultsOf(done, 'exact')[0]! as Exact
  const isolation = resultsOf(done, 'isolation')
  const tools = isolation.flatMap((r) => r.tools)
  const causes = prepared.kinds.get(kind)!.model.causes.map(({ id }) => id)
  const confirmed = resultsOf(done, 'confirm')[0]!.shares
  const strata = resultsOf(done, 'work').map((r, c) => ({ share: shares[c]!, done: r.done }))
  const robust = robustRows(settings, tools, done)
  return {
    rulebook,
    settings,
    isolation: sharesWithin(tools.map((t) => t.within)),
    atBest: sharesWithin(tools.map((t) => t.repairs)),
    oneRepair: sharesWithin(tools.filter((t) => t.repairs === 1).map((t) => t.within)),
    inTurn: sharesWithin(tools.map((t) => t.inTurn)),
    causeFirst: causeFirst(tools),
    ...exact,
    unconfirmed: causes.filter((_, c) => confirmed[c]! < 0.5),
    idle: isolation
      .map((r) => r.idle)
      .reduce((left, own) => left.filter((id) => own.includes(id))) as string[],
    work: workOf(strata),
    causes: Object.fromEntries(
      causes.map((id, c) => [
        id,
        {
          share: shares[c]!,
          confirmed: confirmed[c]!,
          tools: strata[c]!.done.length,
          work: workOf([{ share: 1, done: strata[c]!.done }]),
        },
      ]),
    ),
    confusions: dearestConfusions(causes, shares, done),
    robust: robust.rows,
    sample: sampleOf(tools, robust.plain),
  }
}

/** What of the whole run `npm test` simulates again. */
export function sampleOf(tools: readonly MarkedTool[], done: readonly WorkDone[]): KindFigures['sample'] {
  const some = tools.slice(0, sampleSize.tools)
  return {
    within: some.map((t) => t.within),
    causeFirst: some.map(({ causePlaces }) => meanOf(firstAmong(causePlaces)).mean),
    costs: done.slice(0, sampleSize.courses).map((d) => d.cost),
  }
}

const firstAmong = (places: readonly number[]): number[] => places.map((place) => Number(place === 1))

const causeFirst = (tools: readonly MarkedTool[]): Estimate =>
  meanOf(tools.flatMap(({ causePlaces }) => firstAmong(causePlaces)))

function robustRows(
  { spread, offTools }: ProofSettings,
  undisturbed: readonly MarkedTool[],
  done: readonly Done[],
) {
  const rowsOf = troubles(spread).map((trouble) => {
    const own = done.filter(({ job }) => 'trouble' in job && same(job.trouble, trouble))
    return {
      trouble,
      tools: isUndisturbed(trouble)
        ? undisturbed.slice(0, offTools)
        : resultsOf(own, 'robust-isolation').flatMap((r) => r.tools),
      work: resultsOf(own, 'robust-work').flatMap((r) => r.done),
    }
  })
  const plain = rowsOf.find(({ trouble }) => isUndisturbed(trouble))!.work
  const rows = rowsOf.map(({ trouble, tools, work }): RobustRow => {
    const differences = work.map((d, k) => d.cost - plain[k]!.cost)
    return {
      off: trouble.sd > 0,
      wrong: trouble.wrong,
      again: trouble.again === true,
      isolation: sharesWithin(tools.map((t) => t.within)),
      lost: meanOf(tools.map((t, k) => Number(undisturbed[k]!.within === 1) - Number(t.within === 1))),
      work: work.length > 0 ? workOf([{ share: 1, done: work }]) : null,
      dearer: work.length > 0 ? meanOf(differences) : null,
    }
  })
  return { rows, plain }
}

const isUndisturbed = ({ sd, wrong }: Trouble) => sd === 0 && wrong === 0

const same = (a: Trouble, b: Trouble) => a.sd === b.sd && a.wrong === b.wrong && a.again === b.again

const mostConfusions = 10

/** Money lost over 100 troubled tools, dearest first. */
function dearestConfusions(
  causes: readonly string[],
  shares: readonly number[],
  done: readonly Done[],
): KindFigures['confusions'] {
  const money = new Map<string, number>()
  for (const { job, result } of done) {
    if (job.do !== 'work') continue
    const { losses } = result as JobResults['work']
    for (const [pair, lost] of losses)
      money.set(pair, (money.get(pair) ?? 0) + (100 * shares[job.cause]! * lost) / job.tools)
  }
  return [...money]
    .sort(([, a], [, b]) => b - a)
    .slice(0, mostConfusions)
    .map(([pair, cost]) => {
      const [cause, takenFor] = pair.split('>').map((c) => causes[Number(c)]!)
      return { cause: cause!, takenFor: takenFor!, cost }
    })
}

function resultsOf<D extends Job['do']>(done: readonly Done[], what: D): JobResults[D][] {
  return done.filter(({ job }) => job.do === what).map(({ result }) => result as JobResults[D])
}
