/**
 * A published network as the scoring code takes it, and what the books ask of it. The books condition on the
 * findings only; the product also knows that something is wrong. Both follow from the same weights.
 */
import type { NoisyOrModel, Observation } from '../../server/diagnosis/noisy-or.js'
import { weigh } from '../../server/diagnosis/posterior.js'

/** Rows of strengths by finding. No cause is exclusive unless told. */
export const network = (
  priors: readonly number[],
  leaks: readonly number[],
  strengths: readonly (readonly number[])[],
): NoisyOrModel => ({ priors, leaks, strengths, exclusive: priors.map(() => false) })

/** Findings 0, 1, … as seen: true, false, or null for not looked at. */
export const seen = (...states: readonly (boolean | null)[]): Observation[] =>
  states.flatMap((present, finding) => (present === null ? [] : [{ finding, present, after: 0 }]))

/** P(findings), something wrong or not. */
export function chanceOf(model: NoisyOrModel, observations: readonly Observation[]): number {
  const { trouble, none } = weigh(model, observations, [])
  return trouble + none
}

/** P(cause | findings) for each cause, something wrong or not. */
export function beliefs(model: NoisyOrModel, observations: readonly Observation[]): number[] {
  const { there, trouble, none } = weigh(model, observations, [])
  return [...there].map((w) => w / (trouble + none))
}

/**
 * Any two-valued cause with findings that depend on it alone is a noisy-OR network of one cause: the leak is
 * P(finding | not the cause), and the strength makes up the rest to P(finding | cause), which must be larger.
 */
export function oneCause(
  prior: number,
  findings: readonly { readonly ifThere: number; readonly ifNot: number }[],
): NoisyOrModel {
  return network(
    [prior],
    findings.map((f) => f.ifNot),
    findings.map((f) => [1 - (1 - f.ifThere) / (1 - f.ifNot)]),
  )
}
