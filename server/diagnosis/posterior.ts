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
import { searchFaultSets } from './fault-sets.js'
import type { NoisyOrModel, Observation, Tried } from './noisy-or.js'
import { seenBy, statesOf } from './noisy-or.js'

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

interface Branch {
  readonly weight: number
  readonly stillThere: boolean
  /** bit numbers and strengths of the positives that this state can trip */
  readonly bits: readonly number[]
  readonly strengths: readonly number[]
}

interface Connected {
  readonly cause: number
  readonly absent: number
  readonly branches: readonly Branch[]
}

/**
 * Exact weights of everything that is wrong now, given what was seen and tried.
 *
 * @param model        probabilities in [0, 1]
 * @param observations at most one for each finding; order between the same fixes is irrelevant
 * @param tried        fixes tried, in order, none of which ended the trouble
 */
export function weigh(
  model: NoisyOrModel,
  observations: readonly Observation[],
  tried: readonly Tried[],
): Weights {
  const positives = observations.filter((o) => o.present)
  if (positives.length > mostPositives) return weighBySearch(model, observations, tried)
  const n = model.priors.length
  const there = new Float64Array(n)
  const sole = new Float64Array(n)
  const exclusiveAbsent = product(model.priors.map((p, i) => (model.exclusive[i] ? 1 - p : 1)))

  const connected: Connected[] = []
  const loose: { cause: number; out: number; inn: number }[] = []
  for (let i = 0; i < n; i++) {
    if (model.exclusive[i]) continue
    const described = describe(model, i, observations, positives, tried)
    if (described.branches.some((b) => b.bits.length > 0)) connected.push(described)
    else {
      const inn = described.branches.reduce((sum, b) => sum + (b.stillThere ? b.weight : 0), 0)
      const cured = described.branches.reduce((sum, b) => sum + (b.stillThere ? 0 : b.weight), 0)
      loose.push({ cause: i, out: described.absent + cured, inn })
    }
  }

  // Causes that touch no positive only scale the tables: kept apart as products.
  const looseNone = product(loose.map((l) => l.out))
  const looseAll = product(loose.map((l) => l.out + l.inn))
  let none = 1
  let some = 0
  for (const l of loose) {
    some = some * (l.out + l.inn) + none * l.inn
    none *= l.out
  }

  const size = 1 << positives.length
  const full = size - 1
  let clean: Float64Array = new Float64Array(size) // nothing still there yet
  let faulty: Float64Array = new Float64Array(size) // at least one still there
  clean[0] = leakFactor(model, observations)
  positives.forEach((o, bit) => trip(clean, bit, model.leaks[o.finding]!))

  const before: [Float64Array, Float64Array][] = []
  const scratch = new Float64Array(size)
  for (const c of connected) {
    before.push([clean, faulty])
    const nextClean = scaled(clean, c.absent)
    const nextFaulty = scaled(faulty, c.absent)
    for (const branch of c.branches) {
      if (branch.weight === 0) continue
      if (branch.stillThere) {
        for (let k = 0; k < size; k++) scratch[k] = (clean[k]! + faulty[k]!) * branch.weight
        addTripped(nextFaulty, scratch, branch)
      } else {
        for (let k = 0; k < size; k++) scratch[k] = clean[k]! * branch.weight
        addTripped(nextClean, scratch, branch)
        for (let k = 0; k < size; k++) scratch[k] = faulty[k]! * branch.weight
        addTripped(nextFaulty, scratch, branch)
      }
    }
    clean = nextClean
    faulty = nextFaulty
  }

  // Only those of the loose ones whose absence or presence decides whether there is trouble.
  let trouble = (faulty[full]! * looseAll + clean[full]! * some) * exclusiveAbsent
  let nothing = clean[full]! * looseNone * exclusiveAbsent

  const withoutOne = productsWithoutOne(loose.map((l) => l.out + l.inn))
  const noneWithoutOne = productsWithoutOne(loose.map((l) => l.out))
  loose.forEach((l, k) => {
    there[l.cause] = (clean[full]! + faulty[full]!) * l.inn * withoutOne[k]! * exclusiveAbsent
    sole[l.cause] = clean[full]! * l.inn * noneWithoutOne[k]! * exclusiveAbsent
  })

  // Backward: how much each entry of a table is worth at the end.
  const worthClean = new Float64Array(size) // … for the trouble, from the clean table
  const worthFaulty = new Float64Array(size) // … for the trouble, from the faulty table
  const worthSole = new Float64Array(size) // … if nothing else may be there
  worthClean[full] = some * exclusiveAbsent
  worthFaulty[full] = looseAll * exclusiveAbsent
  worthSole[full] = looseNone * exclusiveAbsent
  const pulled = branchWorths(size)
  for (let index = connected.length - 1; index >= 0; index--) {
    const c = connected[index]!
    const [cleanBefore, faultyBefore] = before[index]!
    const live = c.branches.filter((branch) => branch.weight > 0)
    const worths = live.map((branch, k) => pulled(k, branch, worthClean, worthFaulty, worthSole))
    for (let k = 0; k < size; k++) {
      worthClean[k]! *= c.absent
      worthFaulty[k]! *= c.absent
      worthSole[k]! *= c.absent
    }
    live.forEach((branch, b) => {
      const [fromClean, fromFaulty, fromSole] = worths[b]!
      if (branch.stillThere) {
        let thereSum = 0
        let soleSum = 0
        for (let k = 0; k < size; k++) {
          thereSum += (cleanBefore[k]! + faultyBefore[k]!) * fromFaulty[k]!
          soleSum += cleanBefore[k]! * fromSole[k]!
          worthClean[k]! += fromFaulty[k]!
          worthFaulty[k]! += fromFaulty[k]!
        }
        there[c.cause]! += thereSum
        sole[c.cause]! += soleSum
      } else {
        for (let k = 0; k < size; k++) {
          worthClean[k]! += fromClean[k]!
          worthFaulty[k]! += fromFaulty[k]!
          worthSole[k]! += fromSole[k]!
        }
      }
    })
  }

  for (let e = 0; e < n; e++) {
    if (!model.exclusive[e]) continue
    const alone = weighAlone(model, e, observations, tried)
    there[e] = sole[e] = alone.there
    trouble += alone.there
    nothing += alone.cured
  }
  return { trouble, none: nothing, there, sole, exact: true }
}

/** Branches of a cause: the weight of each state with the negatives it had to avoid, and what it can trip. */
function describe(
  model: NoisyOrModel,
  cause: number,
  observations: readonly Observation[],
  positives: readonly Observation[],
  tried: readonly Tried[],
): Connected {
  const prior = model.priors[cause]!
  const branches = statesOf(prior, cause, tried).map((state): Branch => {
    let weight = state.weight
    for (const o of observations) {
      if (!o.present && seenBy(state, o)) weight *= 1 - model.strengths[o.finding]![cause]!
    }
    const bits: number[] = []
    const strengths: number[] = []
    positives.forEach((o, bit) => {
      const s = model.strengths[o.finding]![cause]!
      if (s > 0 && seenBy(state, o)) {
        bits.push(bit)
        strengths.push(s)
      }
    })
    return { weight, stillThere: state.seesUpTo === Infinity, bits, strengths }
  })
  return { cause, absent: 1 - prior, branches }
}

/** An exclusive cause with every other cause absent. */
function weighAlone(
  model: NoisyOrModel,
  cause: number,
  observations: readonly Observation[],
  tried: readonly Tried[],
): { there: number; cured: number } {
  let others = 1
  model.priors.forEach((p, i) => {
    if (i !== cause) others *= 1 - p
  })
  const weights = statesOf(model.priors[cause]!, cause, tried).map((state) => {
    let weight = others * state.weight
    for (const o of observations) {
      const s = seenBy(state, o) ? model.strengths[o.finding]![cause]! : 0
      const miss = (1 - model.leaks[o.finding]!) * (1 - s)
      weight *= o.present ? 1 - miss : miss
    }
    return weight
  })
  return { there: weights[0]!, cured: weights.slice(1).reduce((sum, w) => sum + w, 0) }
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
  for (const set of searchFaultSets(model, observations, tried, { width: 48, depth: 14, negligible: 1e-9 })) {
    if (set.there.length === 0) continue
    trouble += set.weight
    for (const i of set.there) there[i]! += set.weight
    if (set.there.length === 1) sole[set.there[0]!]! += set.weight
  }
  return { trouble, none: 0, there, sole, exact: false }
}

/** Π over the negatives of their not leaking. */
function leakFactor(model: NoisyOrModel, observations: readonly Observation[]): number {
  return product(observations.map((o) => (o.present ? 1 : 1 - model.leaks[o.finding]!)))
}

/** In place: something trips positive `bit` with chance `s`. */
function trip(table: Float64Array, bit: number, s: number): void {
  const step = 1 << bit
  for (let high = step; high < table.length; high += step << 1) {
    for (let j = high; j < high + step; j++) {
      const low = table[j - step]!
      table[j]! += s * low
      table[j - step] = (1 - s) * low
    }
  }
}

function addTripped(target: Float64Array, scratch: Float64Array, branch: Branch): void {
  branch.bits.forEach((bit, k) => trip(scratch, bit, branch.strengths[k]!))
  for (let k = 0; k < target.length; k++) target[k]! += scratch[k]!
}

type Worths = readonly [clean: Float64Array, faulty: Float64Array, sole: Float64Array]

/** The worth of entering each branch of a cause, in tables that are used again for the next cause. */
function branchWorths(size: number) {
  const tables: Worths[] = []
  return (
    k: number,
    branch: Branch,
    clean: Float64Array,
    faulty: Float64Array,
    sole: Float64Array,
  ): Worths => {
    const own = (tables[k] ??= [new Float64Array(size), new Float64Array(size), new Float64Array(size)])
    if (!branch.stillThere) untrip(own[0], clean, branch)
    untrip(own[1], faulty, branch)
    untrip(own[2], sole, branch)
    return own
  }
}

/** The adjoint of tripping: what an entry is worth before the branch, given the worth after it. */
function untrip(into: Float64Array, worth: Float64Array, branch: Branch): void {
  for (let j = 0; j < into.length; j++) into[j] = worth[j]! * branch.weight
  branch.bits.forEach((bit, k) => {
    const step = 1 << bit
    const s = branch.strengths[k]!
    for (let high = step; high < into.length; high += step << 1) {
      for (let j = high; j < high + step; j++) into[j - step] = (1 - s) * into[j - step]! + s * into[j]!
    }
  })
}

function scaled(table: Float64Array, factor: number): Float64Array {
  const result = new Float64Array(table.length)
  for (let k = 0; k < table.length; k++) result[k] = table[k]! * factor
  return result
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
