/** One troubled tool as the comparison sees it: what may be wrong, what would be done about it, what it takes. */
import { needsParts } from '../../shared/work-files.js'
import type { KindModel } from '../diagnosis/model.js'
import { outlookOf } from '../diagnosis/plan/build.js'
import type { PlanProblem, PlanState } from '../diagnosis/plan/problem.js'

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

/** One thing that may be wrong: sets of faults for which the same would be done if they were known. */
export interface MayBe {
  readonly causes: readonly string[]
  /** share of such tools; the weights of a trouble sum to 1 */
  readonly weight: number
  /** what would be done, one try after the other until one works; the jobs of a try go together; none: not here */
  readonly tries: readonly (readonly Job[])[]
  /** can a service usually mend it? */
  readonly serviceMends: boolean
  /** would a warranty usually pay for it? */
  readonly covered: boolean
  /** share of its used-up life that the tool gets back once it is mended */
  readonly renews: number
}

export interface Trouble {
  /** what it costs that the fault is not known: looks still to come, and fixes that turn out wrong; minutes' worth */
  readonly asking: number
  readonly mayBe: readonly MayBe[]
}

/**
 * @param unit minor units in a major one, in which the rulebook tells what parts cost
 * @returns what may be wrong, likeliest first
 */
export function mayBeFrom(
  model: KindModel,
  problem: PlanProblem,
  state: PlanState,
  { unit, partsToBeHad }: { readonly unit: number; readonly partsToBeHad: boolean },
): readonly MayBe[] {
  return problem.sets
    .flatMap((set, h): MayBe[] => {
      const weight = state.weights[h]!
      if (weight === 0) return []
      const { mends, ...outlook } = outlookOf(model, set, partsToBeHad)
      const tries = triesFor(model, problem, state, set, unit)
      return [{ causes: set.map((c) => model.causes[c]!.id), weight, tries, serviceMends: mends, ...outlook }]
    })
    .sort((a, b) => b.weight - a.weight)
}

interface Choice {
  readonly f: number
  readonly chance: number
}

/** One fault: every fix for it, most chance for the money first. Several: the first of each, done together. */
function triesFor(
  model: KindModel,
  problem: PlanProblem,
  state: PlanState,
  set: readonly number[],
  unit: number,
): readonly (readonly Job[])[] {
  const done = (choices: readonly Choice[], standing: number): readonly Job[] =>
    choices.map(({ f, chance }, k) => jobOf(model, problem, f, k === 0 ? standing : 0, chance, unit))
  if (set.length === 1)
    return fixesFor(problem, state, set[0]!).map((choice, k) => done([choice], k === 0 ? state.standing : 0))
  const chosen: Choice[] = []
  for (const cause of set) {
    if (chosen.some(({ f }) => problem.fixes[f]!.cures.has(cause))) continue
    const [first] = fixesFor(problem, state, cause)
    if (!first) return []
    chosen.push(first)
  }
  return [done(chosen, state.standing)]
}

/** The open fixes for a cause, most chance for the money first. */
function fixesFor(problem: PlanProblem, state: PlanState, cause: number): readonly Choice[] {
  const found: (Choice & { readonly price: number })[] = []
  for (let k = problem.fixesOf.at[cause]!; k < problem.fixesOf.at[cause + 1]!; k++) {
    const f = problem.fixesOf.items[k]!
    if (state.tried[f]) continue
    const fix = problem.fixes[f]!
    const chance = problem.chanceOf[k]!
    found.push({
      f,
      chance,
      price: (fix.cost + problem.costOfSetups[fix.setups & ~state.standing]!) / chance,
    })
  }
  return found.sort((a, b) => a.price - b.price)
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
    needsParts: needsParts(fix),
    opensBody: model.setups.some(({ opensBody }, bit) => opensBody && mask & (1 << bit)),
    chance,
  }
}
