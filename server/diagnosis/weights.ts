/**
 * Why: the weight of evidence (Good 1950; Turing's deciban) that each finding lends each cause,
 *
 *     W = 10·log10 [ P(f | cause, other evidence) / P(f | not cause, other evidence) ] ,
 *
 * the other findings given each time. The weights do not sum to the change from prior to posterior.
 */
import type { Evidence, Weight } from '../../shared/diagnosis.js'
import type { KindModel } from './model.js'
import type { Observation, Tried } from './noisy-or.js'
import type { Weights } from './posterior.js'
import { weigh } from './posterior.js'

/** Weaker than this (in decibans, about 1.06 to 1) a finding says nothing worth showing. */
const leastDecibans = 0.25

/**
 * Decibans from four weights: with the finding and without it, cause there and not there.
 * Infinite where one side is impossible; 0 where nothing can be said.
 */
export function decibans(
  thereWith: number,
  thereWithout: number,
  notThereWith: number,
  notThereWithout: number,
): number {
  if (thereWithout <= 0 || notThereWithout <= 0) return 0
  const ratio = thereWith / thereWithout / (notThereWith / notThereWithout)
  return Number.isNaN(ratio) ? 0 : 10 * Math.log10(ratio)
}

/** By cause: the weight of every piece of evidence, in the order of the evidence. */
export function weightsOfEvidence(
  model: KindModel,
  evidence: readonly Evidence[],
  observations: readonly Observation[],
  tried: readonly Tried[],
  all: Weights,
): Weight[][] {
  const table = model.causes.map((): Weight[] => [])
  observations.forEach((observation, k) => {
    const without = weigh(
      model,
      observations.filter((o) => o !== observation),
      tried,
    )
    model.causes.forEach((_, i) => {
      const weight = decibans(
        all.there[i]!,
        without.there[i]!,
        all.trouble - all.there[i]!,
        without.trouble - without.there[i]!,
      )
      if (Math.abs(weight) >= leastDecibans) {
        table[i]!.push({ finding: evidence[k]!.finding, decibans: weight })
      }
    })
  })
  return table
}

/** Strongest first. */
export const speakingFor = (weights: readonly Weight[]): Weight[] =>
  weights.filter((w) => w.decibans > 0).sort((a, b) => b.decibans - a.decibans)

export const speakingAgainst = (weights: readonly Weight[]): Weight[] =>
  weights.filter((w) => w.decibans < 0).sort((a, b) => a.decibans - b.decibans)
