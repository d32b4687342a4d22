/** What the repairs that others told come to: places, log loss, and how right a score is for how sure it is. */
import type { Estimate, ToldCause } from '../../shared/proof.js'

/** A chance below this counts as this in the log loss, so that one impossible cause does not outweigh all. */
const floor = 1e-4

/** Of so many causes a share, with the standard error of a share. */
export function shareWithin(causes: readonly ToldCause[], most: number): Estimate {
  return shareOf(causes.map(({ afterAll }) => afterAll <= most))
}

export function shareOf(hits: readonly boolean[]): Estimate {
  const mean = hits.filter(Boolean).length / Math.max(1, hits.length)
  return { mean, se: Math.sqrt((mean * (1 - mean)) / Math.max(1, hits.length)) }
}

/** Mean of −ln of the chance given to what it was, in nats, with its standard error. 0 is knowing it. */
export function logLoss(causes: readonly ToldCause[]): Estimate {
  const losses = causes.map(({ chance }) => -Math.log(Math.max(floor, chance)))
  const n = Math.max(1, losses.length)
  const mean = losses.reduce((sum, loss) => sum + loss, 0) / n
  const variance = losses.reduce((sum, loss) => sum + (loss - mean) ** 2, 0) / Math.max(1, n - 1)
  return { mean, se: Math.sqrt(variance / n) }
}

/** How sure the scores are of the likeliest cause of a story, in steps, and how often it is right. */
export interface SureStep {
  readonly from: number
  readonly to: number
  readonly stories: number
  /** what the scores say, on average */
  readonly said: number
  readonly right: Estimate
}

const steps = [0, 0.3, 0.5, 0.7, 0.9, 1] as const

export function sureAgainstRight(causes: readonly ToldCause[]): SureStep[] {
  const leaders = [...new Map(causes.map(({ story, leader }) => [story, leader])).values()]
  return steps.slice(1).map((to, k) => {
    const from = steps[k]!
    const here = leaders.filter(({ chance }) => chance >= from && (chance < to || to === 1))
    return {
      from,
      to,
      stories: here.length,
      said: here.reduce((sum, { chance }) => sum + chance, 0) / Math.max(1, here.length),
      right: shareOf(here.map(({ right }) => right)),
    }
  })
}
