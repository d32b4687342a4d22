/** How sure somebody was against how right they were, in counts. */
import { stepOfPoints } from '../../shared/practice.js'
import type { MurphyParts } from './confidence.js'

/** All times that a suspect had so many points. */
export interface Said {
  /** the step of points, 0 to 100 */
  readonly points: number
  /** how often so many were given */
  readonly times: number
  /** in how many of these it was there; a tool with k faults counts 1/k for each */
  readonly there: number
}

export interface Calibration {
  /** only steps that were used, lowest first */
  readonly steps: readonly Said[]
  /** of the suspects that had 50 points or more: how many, how many the points promised, how many were there */
  readonly sure: {
    readonly times: number
    readonly promised: number
    readonly there: number
    /** by how much `there` differs from `promised` by chance alone: one standard deviation */
    readonly chance: number
  }
  /** distance of what was said from what was so, the root of Murphy's reliability; points */
  readonly apart: number
  /** how far the steps part what was there from what was not, the root of Murphy's resolution; points */
  readonly parted: number
  /** how far off giving every suspect the same would be, the root of Murphy's uncertainty; points */
  readonly spread: number
  /**
   * Murphy's resolution less reliability, of his uncertainty: 0 for somebody who knows no more than how often a
   * suspect is there, 1 for somebody who is never wrong; below 0 for worse than that. 0 where nothing could be known.
   */
  readonly known: number
  /** suspects in all, and those of them that were there */
  readonly times: number
  readonly there: number
}

/** From how many points somebody is held to their word. */
const sureFrom = 50

export function calibrationOf({
  bins,
  reliability,
  resolution,
  uncertainty,
}: Omit<MurphyParts, 'score' | 'within'>): Calibration {
  const sum = (values: readonly number[]) => values.reduce((all, it) => all + it, 0)
  const steps = bins.map(({ forecast, outcome, count }) => ({
    points: Math.round((forecast * 100) / stepOfPoints) * stepOfPoints,
    times: count,
    there: outcome * count,
    promised: forecast * count,
  }))
  const sure = steps.filter(({ points }) => points >= sureFrom)
  return {
    steps: steps.map(({ points, times, there }) => ({ points, times, there })),
    sure: {
      times: sum(sure.map(({ times }) => times)),
      promised: sum(sure.map(({ promised }) => promised)),
      there: sum(sure.map(({ there }) => there)),
      chance: Math.sqrt(sum(sure.map(({ promised, times }) => promised * (1 - promised / times)))),
    },
    apart: Math.sqrt(reliability) * 100,
    parted: Math.sqrt(resolution) * 100,
    spread: Math.sqrt(uncertainty) * 100,
    known: uncertainty > 0 ? (resolution - reliability) / uncertainty : 0,
    times: sum(bins.map(({ count }) => count)),
    there: sum(steps.map(({ there }) => there)),
  }
}
