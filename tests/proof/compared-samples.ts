/** The same tools before and after a change. */
import type { KindFigures } from '../../shared/proof.js'

type Sample = KindFigures['sample']

/** Recorded numbers have six digits. */
const rounding = 1e-5

/**
 * @returns the marks that are worse than before, and all of them in words, before and after, with the tools that differ
 */
export function comparedSamples(before: Sample, after: Sample): { worse: string[]; report: string } {
  const marks = [
    ...[1, 2, 3].map((most) => ({
      name: `isolated to ${most}`,
      of: ({ within }: Sample) => within.filter((n) => n <= most).length / within.length,
      moreIsBetter: true,
    })),
    { name: 'cause first', of: (s: Sample) => s.causeFirst, moreIsBetter: true },
    {
      name: 'mean cost',
      of: ({ costs }: Sample) => costs.reduce((sum, c) => sum + c, 0) / Math.max(1, costs.length),
      moreIsBetter: false,
    },
  ].map(({ name, of, moreIsBetter }) => {
    const [was, is] = [of(before), of(after)]
    const loss = moreIsBetter ? was - is : is - was
    return { name, was, is, worse: loss > rounding * Math.max(1, Math.abs(was)) }
  })
  const changed = after.within.flatMap((n, k) =>
    n === before.within[k] ? [] : [`tool ${k}: ${before.within[k]} → ${n}`],
  )
  const lines = marks.map(
    ({ name, was, is, worse }) =>
      `${name}: ${was.toFixed(4)} before, ${is.toFixed(4)} now${worse ? ', worse' : ''}`,
  )
  return {
    worse: marks.filter((mark) => mark.worse).map(({ name }) => name),
    report: [...lines, `repairs to which a tool is isolated: ${changed.join(', ') || 'as before'}`].join(
      '\n  ',
    ),
  }
}
