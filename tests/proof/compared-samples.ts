/** The same tools before and after a change of the code. */
import type { KindFigures } from '../../shared/proof.js'
import { meanOf } from '../../server/proof/shares.js'

type Sample = KindFigures['sample']

/** Recorded numbers have six digits. */
const rounding = 1e-5

/** So many standard errors of the difference, tool by tool, are no luck of the draw. */
const beyondLuck = 2

/** What each tool has of a mark; more is better. */
const marks: readonly { readonly name: string; readonly of: (sample: Sample) => readonly number[] }[] = [
  ...[1, 2, 3].map((most) => ({
    name: `isolated to ${most}`,
    of: ({ within }: Sample) => within.map((n) => Number(n <= most)),
  })),
  { name: 'cause first', of: ({ causeFirst }) => causeFirst },
  { name: 'cost, as a loss', of: ({ costs }) => costs.map((cost) => -cost) },
]

/**
 * @param before samples by kind, as recorded
 * @param after  of the same kinds and tools, as they come out now
 * @returns the marks that are worse over all kinds than before, and all of them in words with the tools that differ
 */
export function comparedSamples(
  before: Readonly<Record<string, Sample>>,
  after: Readonly<Record<string, Sample>>,
): { worse: string[]; report: string } {
  const kinds = Object.keys(before)
  const compared = marks.map(({ name, of }) => {
    const [was, is] = [before, after].map((samples) => kinds.flatMap((kind) => of(samples[kind]!))) as [
      number[],
      number[],
    ]
    const { mean: loss, se } = meanOf(was.map((value, k) => value - is[k]!))
    const least = rounding * Math.max(1, Math.abs(meanOf(was).mean))
    return {
      name,
      was: meanOf(was).mean,
      is: meanOf(is).mean,
      worse: loss > Math.max(least, beyondLuck * se),
    }
  })
  const lines = compared.map(
    ({ name, was, is, worse }) =>
      `${name}: ${was.toFixed(4)} before, ${is.toFixed(4)} now${worse ? ', worse' : ''}`,
  )
  const changed = kinds.flatMap((kind) =>
    after[kind]!.within.flatMap((n, k) => {
      const was = before[kind]!.within[k]
      return n === was ? [] : [`${kind} ${k}: ${was} → ${n}`]
    }),
  )
  return {
    worse: compared.filter(({ worse }) => worse).map(({ name }) => name),
    report: [...lines, `repairs to which a tool is isolated: ${changed.join(', ') || 'as before'}`].join(
      '\n  ',
    ),
  }
}
