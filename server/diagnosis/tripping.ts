/**
 * The positive findings tripped so far, cause by cause: tables over all sets of them, forward for the weight of
 * everything, backward for the share of each cause in it.
 *
 * Entry k of a table is the weight of all ways in which exactly the positives in k are tripped so far (positive
 * j is bit j of k). A cause in one state trips each positive that it can with its strength, independently.
 * Typed arrays, changed in place: 2^m entries for each of some sixty causes are the bulk of scoring.
 */

/** A cause in one of its states besides absent. */
export interface Branch {
  /** chance of the state, with the negative findings that it had to avoid */
  readonly weight: number
  /** still there now, or cured by a fix that was tried */
  readonly stillThere: boolean
  /** positions and strengths of the positives that it can trip */
  readonly positives: readonly number[]
  readonly strengths: readonly number[]
}

/** A cause that can trip some positive: its branches change the tables. */
export interface Tripping {
  readonly cause: number
  /** P(absent) */
  readonly absent: number
  readonly branches: readonly Branch[]
}

/** The two tables on the way: nothing still there yet, and at least one cause still there. */
interface Tables {
  readonly clean: Float64Array
  readonly faulty: Float64Array
}

/** Takes the tables through every cause; `before[k]` is how they stood before the k-th. */
export function forwardPass(
  tripping: readonly Tripping[],
  start: Float64Array,
): Tables & { readonly before: readonly Tables[] } {
  const size = start.length
  const before: Tables[] = []
  const scratch = new Float64Array(size)
  let tables: Tables = { clean: start, faulty: new Float64Array(size) }
  for (const { absent, branches } of tripping) {
    before.push(tables)
    const { clean, faulty } = tables
    tables = { clean: scaled(clean, absent), faulty: scaled(faulty, absent) }
    for (const branch of branches) {
      if (branch.weight === 0) continue
      if (branch.stillThere) {
        for (let k = 0; k < size; k++) scratch[k] = (clean[k]! + faulty[k]!) * branch.weight
        addTripped(tables.faulty, scratch, branch)
      } else {
        for (let k = 0; k < size; k++) scratch[k] = clean[k]! * branch.weight
        addTripped(tables.clean, scratch, branch)
        for (let k = 0; k < size; k++) scratch[k] = faulty[k]! * branch.weight
        addTripped(tables.faulty, scratch, branch)
      }
    }
  }
  return { ...tables, before }
}

/** What the entry with every positive tripped is worth at the end. */
export interface EndWorth {
  /** for the trouble, from the clean table: some idle cause must be there */
  readonly clean: number
  /** for the trouble, from the faulty table: the idle causes may be as they like */
  readonly faulty: number
  /** if nothing else may be there */
  readonly sole: number
}

/** Backward through the causes: fills `there` and `sole` of each from how much each entry is worth at the end. */
export function backwardPass(
  tripping: readonly Tripping[],
  before: readonly Tables[],
  end: EndWorth,
  there: Float64Array,
  sole: Float64Array,
): void {
  const size = before[0]?.clean.length ?? 1
  const worth = worthTables(size)
  worth.clean[size - 1] = end.clean
  worth.faulty[size - 1] = end.faulty
  worth.sole[size - 1] = end.sole
  const entering: Worth[] = [] // the worth of entering each branch; the tables serve every cause
  for (let index = tripping.length - 1; index >= 0; index--) {
    const { cause, absent, branches } = tripping[index]!
    const { clean, faulty } = before[index]!
    const live = branches.filter((branch) => branch.weight > 0)
    live.forEach((branch, b) => {
      const from = (entering[b] ??= worthTables(size))
      if (!branch.stillThere) untrip(from.clean, worth.clean, branch)
      untrip(from.faulty, worth.faulty, branch)
      untrip(from.sole, worth.sole, branch)
    })
    for (let k = 0; k < size; k++) {
      worth.clean[k]! *= absent
      worth.faulty[k]! *= absent
      worth.sole[k]! *= absent
    }
    live.forEach((branch, b) => {
      if (!branch.stillThere) return addCured(worth, entering[b]!)
      const marginal = addStillThere(worth, entering[b]!, clean, faulty)
      there[cause]! += marginal.there
      sole[cause]! += marginal.sole
    })
  }
}

interface Worth {
  readonly clean: Float64Array
  readonly faulty: Float64Array
  readonly sole: Float64Array
}

const worthTables = (size: number): Worth => ({
  clean: new Float64Array(size),
  faulty: new Float64Array(size),
  sole: new Float64Array(size),
})

/** A cured branch leaves each table what it is. */
function addCured(worth: Worth, from: Worth): void {
  for (let k = 0; k < worth.clean.length; k++) {
    worth.clean[k]! += from.clean[k]!
    worth.faulty[k]! += from.faulty[k]!
    worth.sole[k]! += from.sole[k]!
  }
}

/** A branch that is still there leads from either table to the faulty one, and nothing else may be there for sole. */
function addStillThere(
  worth: Worth,
  from: Worth,
  clean: Float64Array,
  faulty: Float64Array,
): { there: number; sole: number } {
  let there = 0
  let sole = 0
  for (let k = 0; k < clean.length; k++) {
    there += (clean[k]! + faulty[k]!) * from.faulty[k]!
    sole += clean[k]! * from.sole[k]!
    worth.clean[k]! += from.faulty[k]!
    worth.faulty[k]! += from.faulty[k]!
  }
  return { there, sole }
}

/** In place: something trips the positive at this position with chance `strength`. */
export function trip(table: Float64Array, position: number, strength: number): void {
  const step = 1 << position
  for (let high = step; high < table.length; high += step << 1) {
    for (let j = high; j < high + step; j++) {
      const low = table[j - step]!
      table[j]! += strength * low
      table[j - step] = (1 - strength) * low
    }
  }
}

/** Adds to `target` what the branch makes of `scratch`, which is used up. */
function addTripped(target: Float64Array, scratch: Float64Array, branch: Branch): void {
  branch.positives.forEach((position, k) => trip(scratch, position, branch.strengths[k]!))
  for (let k = 0; k < target.length; k++) target[k]! += scratch[k]!
}

/** The adjoint of tripping: what an entry is worth before the branch, given the worth after it. */
function untrip(into: Float64Array, worth: Float64Array, branch: Branch): void {
  for (let j = 0; j < into.length; j++) into[j] = worth[j]! * branch.weight
  branch.positives.forEach((position, k) => {
    const step = 1 << position
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
