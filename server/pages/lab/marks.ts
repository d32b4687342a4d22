/** What changed numbers do to the marks of a kind, in counts. */
import { inHundred } from '../layout/words.js'

/** A share of simulated tools in [0, 1] with its standard error. */
interface Estimate {
  readonly mean: number
  readonly se: number
}

/** The marks of one rulebook over a sample of simulated tools. */
export interface Marks {
  readonly tools: number
  /** share of tools whose faults' repairs are among the first one, two, three */
  readonly isolation: readonly [Estimate, Estimate, Estimate]
  /** share of faults whose cause is the likeliest of all */
  readonly causeFirst: Estimate
  /** tool by tool: the least number of repairs that holds its own */
  readonly within: readonly number[]
}

export interface LabMarks {
  readonly rows: readonly { readonly name: string; readonly before: string; readonly after: string }[]
  readonly words: string
}

const names = [
  'The right fix is the first',
  'The right fix is among the first two',
  'The right fix is among the first three',
] as const

/** @param after the same object as `before` while nothing is changed */
export function labMarks(before: Marks, after: Marks): LabMarks {
  const row = (name: string, of: (marks: Marks) => Estimate) => ({
    name,
    before: estimateWords(of(before)),
    after: before === after ? '' : estimateWords(of(after)),
  })
  return {
    rows: [
      ...names.map((name, i) => row(name, ({ isolation }) => isolation[i]!)),
      row('The right cause is the first', ({ causeFirst }) => causeFirst),
    ],
    words: `${before.tools} made-up tools of this kind, every question answered. ${comparedWords(before, after)}`,
  }
}

/** "83 in 100, give or take 3": the mean and one standard error. */
function estimateWords({ mean, se }: Estimate): string {
  return `${inHundred(mean)}, give or take ${Math.max(1, Math.round(se * 100))}`
}

function comparedWords(before: Marks, after: Marks): string {
  if (before === after) return 'Change a number to see what it does to them.'
  const moved = (better: boolean): number =>
    after.within.filter((n, i) => (better ? n < before.within[i]! : n > before.within[i]!)).length
  const [better, worse] = [moved(true), moved(false)]
  if (better + worse === 0) return 'The same tools under both rulebooks: none came out otherwise.'
  return `The same tools under both rulebooks: ${better} came out better, ${worse} worse.`
}
