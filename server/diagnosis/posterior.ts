/**
 * Findings and fixes tried → the weight of every way the tool can be in trouble, and all that follows.
 *
 * Exact over all combinations of causes, without the subtraction of Quickscore (Heckerman, UAI 1989), which
 * loses its digits from five positive findings on. Each present cause, and the leak, independently trips
 * each positive finding. Cause by cause we carry the weight of every set of positives tripped so far, in two
 * tables: no cause still there yet, and at least one. All terms are positive. n·m·2^m for m positives; one
 * backward pass (reverse-mode differentiation) gives every marginal.
 *
 * Coverage of the method's section 3:
 *   leaky noisy-OR, several faults at once          yes
 *   absent / cured / still there, order of fixes    yes, `statesOf`
 *   "in trouble": some cause is still there         yes, `trouble`
 *   exclusive causes ("nothing wrong")              yes, scored alone
 *   more than `mostPositives` positives             fault-sets.ts, with `exact: false`
 */
import { searchFaultSets, thorough } from './fault-sets.js'
import type { NoisyOrModel, Observation, Tried } from './noisy-or.js'
import { havingMissed, isStillThere, seenBy, statesOf, weightsAlone } from './noisy-or.js'
import type { Branch, EndWorth, Tripping } from './tripping.js'
import { backwardPass, forwardPass, trip } from './tripping.js'

/** Above this many positive findings the tables would take too long (2^m entries each). */
export const mostPositives = 14

/** Unnormalised weights; all ≥ 0. Z(all) = trouble + none, Z(∅) = none. */
export interface Weights {
  /** weight of all states with at least one cause still there */
  readonly trouble: number
  /** weight of all states in which nothing is left */
  readonly none: number
  /** by cause: weight of the states in which it is still there */
  readonly there: Float64Array
  /** by cause: weight of the states in which it alone is still there */
  readonly sole: Float64Array
  readonly exact: boolean
}

/** A cause that can trip no positive: it only scales the tables. */
interface Idle {
  readonly cause: number
  /** weight of its being absent or cured */
  readonly gone: number
  readonly there: number
}

/**
 * Exact weights of everything that is wrong now, given what was seen and tried.
 *
 * @param model        probabilities in [0, 1]
 * @param observations at most one for each finding; order between the same fixes is irrelevant
 * @param tried        fixes tried, in order, none of which ended the trouble
 * @returns `exact: false`, over the likeliest fault sets, where there are more than `mostPositives` positives
 */
export function weigh(
  model: NoisyOrModel,
  observations: readonly Observation[],
  tried: readonly Tried[],
): Weights {
  const positives = observations.filter((o) => o.present)
  if (positives.length > mostPositives) return weighBySearch(model, observations, tried)
  const { tripping, idle } = splitCauses(model, observations, positives, tried)
  const { before, clean, faulty } = forwardPass(tripping, untouched(model, observations, positives))
  const full = clean.length - 1 // the entry with every positive tripped
  const exclusiveAbsent = product(model.priors.map((p, i) => (model.exclusive[i] ? 1 - p : 1)))
  const rest = weightsOfIdle(idle)

  const there = new Float64Array(model.priors.length)
  const sole = new Float64Array(model.priors.length)
  const end: EndWorth = {
    clean: rest.some * exclusiveAbsent,
    faulty: rest.any * exclusiveAbsent,
    sole: rest.none * exclusiveAbsent,
  }
  backwardPass(tripping, before, end, there, sole)
  idle.forEach(({ cause, there: weight }, k) => {
    there[cause] = (clean[full]! + faulty[full]!) * weight * rest.anyWithout[k]! * exclusiveAbsent
    sole[cause] = clean[full]! * weight * rest.noneWithout[k]! * exclusiveAbsent
  })
  let trouble = (faulty[full]! * rest.any + clean[full]! * rest.some) * exclusiveAbsent
  let none = clean[full]! * rest.none * exclusiveAbsent

  model.exclusive.forEach((isExclusive, cause) => {
    if (!isExclusive) return
    const [stillThere, ...cured] = weightsAlone(model, cause, observations, tried)
    there[cause] = sole[cause] = stillThere!
    trouble += stillThere!
    none += cured.reduce((sum, w) => sum + w, 0)
  })
  return { trouble, none, there, sole, exact: true }
}

/** The ordinary causes: those that can trip a positive, and those that cannot. */
function splitCauses(
  model: NoisyOrModel,
  observations: readonly Observation[],
  positives: readonly Observation[],
  tried: readonly Tried[],
): { tripping: Tripping[]; idle: Idle[] } {
  const negatives = observations.filter((o) => !o.present)
  const tripping: Tripping[] = []
  const idle: Idle[] = []
  model.priors.forEach((prior, cause) => {
    if (model.exclusive[cause]) return
    const branches = branchesOf(model, cause, positives, negatives, tried)
    const absent = 1 - prior
    if (branches.some((branch) => branch.positives.length > 0)) {
      tripping.push({ cause, absent, branches })
    } else {
      const there = branches.reduce((sum, b) => sum + (b.stillThere ? b.weight : 0), 0)
      const cured = branches.reduce((sum, b) => sum + (b.stillThere ? 0 : b.weight), 0)
      idle.push({ cause, gone: absent + cured, there })
    }
  })
  return { tripping, idle }
}

function branchesOf(
  model: NoisyOrModel,
  cause: number,
  positives: readonly Observation[],
  negatives: readonly Observation[],
  tried: readonly Tried[],
): Branch[] {
  return statesOf(model.priors[cause]!, cause, tried).map((state) => {
    const tripped = [...positives.keys()].filter(
      (k) => model.strengths[positives[k]!.finding]![cause]! > 0 && seenBy(state, positives[k]!),
    )
    return {
      weight: havingMissed(state.weight, model, cause, state, negatives),
      stillThere: isStillThere(state),
      positives: tripped,
      strengths: tripped.map((k) => model.strengths[positives[k]!.finding]![cause]!),
    }
  })
}

/** The table before any cause: the leaks alone. */
function untouched(
  model: NoisyOrModel,
  observations: readonly Observation[],
  positives: readonly Observation[],
): Float64Array {
  const table = new Float64Array(1 << positives.length)
  table[0] = product(observations.map((o) => (o.present ? 1 : 1 - model.leaks[o.finding]!)))
  positives.forEach((o, position) => trip(table, position, model.leaks[o.finding]!))
  return table
}

/** Products over the idle causes: none there, at least one, any; the last two also without each one. */
function weightsOfIdle(idle: readonly Idle[]) {
  let none = 1
  let some = 0
  for (const { gone, there } of idle) {
    some = some * (gone + there) + none * there
    none *= gone
  }
  return {
    none,
    some,
    any: product(idle.map(({ gone, there }) => gone + there)),
    noneWithout: productsWithoutOne(idle.map(({ gone }) => gone)),
    anyWithout: productsWithoutOne(idle.map(({ gone, there }) => gone + there)),
  }
}

/** Too many positives for the tables: the likeliest sets of causes stand for all, `exact: false`. */
function weighBySearch(
  model: NoisyOrModel,
  observations: readonly Observation[],
  tried: readonly Tried[],
): Weights {
  const n = model.priors.length
  const there = new Float64Array(n)
  const sole = new Float64Array(n)
  let trouble = 0
  for (const set of searchFaultSets(model, observations, tried, thorough)) {
    trouble += set.weight
    for (const i of set.there) there[i]! += set.weight
    if (set.there.length === 1) sole[set.there[0]!]! += set.weight
  }
  return { trouble, none: 0, there, sole, exact: false }
}

const product = (factors: readonly number[]): number => factors.reduce((p, f) => p * f, 1)

/** Product of all but one, for each one, without dividing (a factor may be 0). */
function productsWithoutOne(factors: readonly number[]): number[] {
  const left: number[] = []
  let p = 1
  for (const f of factors) {
    left.push(p)
    p *= f
  }
  let right = 1
  for (let k = factors.length - 1; k >= 0; k--) {
    left[k]! *= right
    right *= factors[k]!
  }
  return left
}
