/** One troubled tool as the comparison sees it: what may be wrong, what would be done about it, what it takes. */
import type { KindModel } from '../diagnosis/model.js'
import type { PlanProblem, PlanState } from '../diagnosis/plan/problem.js'
import { endCostOf } from '../diagnosis/plan/problem.js'

/** One repair: what a hand needs for it and how likely it works. Money in minor units. */
export interface Job {
  readonly fix: string
  /** set-ups included */
  readonly minutes: number
  readonly parts: number
  readonly needsParts: boolean
  readonly opensBody: boolean
  readonly chance: number
}

/** One thing that may be wrong: a set of faults with what would be done if it were known. */
export interface MayBe {
  readonly causes: readonly string[]
  /** share of such tools; the weights of a trouble sum to 1 */
  readonly weight: number
  /** the jobs that would be done, in order; none where nothing can be done here */
  readonly jobs: readonly Job[]
  /** can a service usually mend it? */
  readonly serviceMends: boolean
}

export interface Trouble {
  /** minutes that the questions and checks still to come are expected to take */
  readonly asking: number
  readonly mayBe: readonly MayBe[]
}

/** Prices of the plan, in major units. */
export interface PlanPrices {
  /** minor units in a major one */
  readonly unit: number
  /** a minute at the bench */
  readonly rate: number
  /** expected total cost from here */
  readonly planned: number
  /** waiting for a part, once for each job that needs one */
  readonly partWait?: number
}

/**
 * @param prices what the plan reckons with: what it expects beyond the repairs is asking
 */
export function troubleFrom(
  model: KindModel,
  problem: PlanProblem,
  state: PlanState,
  { unit, rate, planned, partWait = 0 }: PlanPrices,
): Trouble {
  let known = 0
  const mayBe = problem.sets.flatMap((set, h): MayBe[] => {
    const weight = state.weights[h]!
    if (weight === 0) return []
    const jobs = jobsFor(model, problem, state, set, unit) ?? []
    known += weight * knownCost(jobs, endCostOf(problem, h), { rate, unit, partWait })
    return [
      {
        causes: set.map((c) => model.causes[c]!.id),
        weight,
        jobs,
        serviceMends: set.every((c) => model.causes[c]!.service === 'mend'),
      },
    ]
  })
  return { asking: rate > 0 ? Math.max(0, planned - known) / rate : 0, mayBe }
}

/** The cheapest fix that is open for each cause, most chance for the money first; null where one has none. */
function jobsFor(
  model: KindModel,
  problem: PlanProblem,
  state: PlanState,
  set: readonly number[],
  unit: number,
): readonly Job[] | null {
  const chosen = new Map<number, number>()
  let standing = state.standing
  for (const cause of set) {
    if ([...chosen.keys()].some((f) => problem.fixes[f]!.cures.has(cause))) continue
    let best: { f: number; chance: number; price: number } | null = null
    for (let k = problem.fixesOf.at[cause]!; k < problem.fixesOf.at[cause + 1]!; k++) {
      const f = problem.fixesOf.items[k]!
      if (state.tried[f]) continue
      const fix = problem.fixes[f]!
      const chance = problem.chanceOf[k]!
      const price = (fix.cost + problem.costOfSetups[fix.setups & ~standing]!) / chance
      if (best === null || price < best.price) best = { f, chance, price }
    }
    if (best === null) return null
    chosen.set(best.f, best.chance)
    standing = 0
  }
  let stands = state.standing
  return [...chosen].map(([f, chance]) => {
    const job = jobOf(model, problem, f, stands, chance, unit)
    stands = 0
    return job
  })
}

function jobOf(
  model: KindModel,
  problem: PlanProblem,
  f: number,
  standing: number,
  chance: number,
  unit: number,
): Job {
  const fix = model.fixes[f]!
  const mask = problem.fixes[f]!.setups
  const setups = model.setups.filter((_, bit) => mask & ~standing & (1 << bit))
  return {
    fix: fix.id,
    minutes: setups.reduce((sum, { minutes }) => sum + minutes, fix.minutes),
    parts: fix.parts.reduce((sum, { cost }) => sum + cost * unit, 0),
    needsParts: fix.parts.length > 0,
    opensBody: model.setups.some(({ opensBody }, bit) => opensBody && mask & (1 << bit)),
    chance,
  }
}

/** What it would cost were it known, in the plan's own prices; in major units. */
function knownCost(
  jobs: readonly Job[],
  end: number,
  { rate, unit, partWait }: Required<Omit<PlanPrices, 'planned'>>,
): number {
  if (jobs.length === 0) return end
  const spent = jobs.reduce(
    (sum, job) => sum + job.minutes * rate + job.parts / unit + (job.needsParts ? partWait : 0),
    0,
  )
  const works = jobs.reduce((chance, job) => chance * job.chance, 1)
  return Math.min(end, spent + (1 - works) * end)
}
