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
import { likeliest, searchFaultSets } from './fault-sets.js'
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

/** Table entries that the exact sums may fill, all findings together; beyond, the likeliest fault sets do. */
const mostEntries = 20_000

/** Most fault sets carried where the weights are worked out roughly, the heaviest first. */
const mostSets = 600

/** By cause: the weight of every piece of evidence, in the order of the evidence. */
export function weightsOfEvidence(
  model: KindModel,
  evidence: readonly Evidence[],
  observations: readonly Observation[],
  tried: readonly Tried[],
  all: Weights,
): Weight[][] {
  const without = leavingOut(model, observations, tried, all)
  const whole = without(null)
  const table = model.causes.map((): Weight[] => [])
  observations.forEach((observation, k) => {
    const less = without(observation)
    model.causes.forEach((_, i) => {
      const weight = decibans(
        whole.there[i]!,
        less.there[i]!,
        whole.trouble - whole.there[i]!,
        less.trouble - less.there[i]!,
      )
      if (Math.abs(weight) >= leastDecibans) {
        table[i]!.push({ finding: evidence[k]!.finding, decibans: weight })
      }
    })
  })
  return table
}

/** Weights with one observation left out, or with none (null). */
type Without = (left: Observation | null) => Pick<Weights, 'there' | 'trouble'>

/** Exact while that is quick, else over the likeliest fault sets. */
export function leavingOut(
  model: KindModel,
  observations: readonly Observation[],
  tried: readonly Tried[],
  all: Weights,
): Without {
  const positives = observations.filter((o) => o.present).length
  const exact = all.exact && observations.length * 2 ** positives <= mostEntries
  return exact ? exactlyWithout(model, observations, tried, all) : roughlyWithout(model, observations, tried)
}

function exactlyWithout(
  model: KindModel,
  observations: readonly Observation[],
  tried: readonly Tried[],
  all: Weights,
): Without {
  return (left) => {
    if (!left) return all
    const others = observations.filter((o) => o !== left)
    return weigh(model, others, withoutWhatItTells(tried, left))
  }
}

/** The fixes tried, less the one before the case that only this observation tells of. */
export const withoutWhatItTells = (tried: readonly Tried[], { tells }: Observation): readonly Tried[] =>
  tried.map((cures, k) => (k === tells ? cures.map(() => 0) : cures))

/**
 * Leaving one out over the likeliest fault sets: a set's weight without a finding is its weight over the
 * finding's chance in that set. Sees only what is still there; findings from before a fix are taken so too.
 */
function roughlyWithout(
  model: KindModel,
  observations: readonly Observation[],
  tried: readonly Tried[],
): Without {
  const sets = searchFaultSets(model, observations, tried, likeliest)
    .sort((a, b) => b.weight - a.weight)
    .slice(0, mostSets)
  return (left) => {
    const there = new Float64Array(model.causes.length)
    let trouble = 0
    for (const set of sets) {
      let weight = set.weight
      if (left) {
        const miss = set.there.reduce(
          (q, c) => q * (1 - model.strengths[left.finding]![c]!),
          1 - model.leaks[left.finding]!,
        )
        weight /= left.present ? 1 - miss : miss
      }
      trouble += weight
      for (const c of set.there) there[c]! += weight
    }
    return { there, trouble }
  }
}

/** Strongest first. */
export const speakingFor = (weights: readonly Weight[]): Weight[] =>
  weights.filter((w) => w.decibans > 0).sort((a, b) => b.decibans - a.decibans)

export const speakingAgainst = (weights: readonly Weight[]): Weight[] =>
  weights.filter((w) => w.decibans < 0).sort((a, b) => a.decibans - b.decibans)
