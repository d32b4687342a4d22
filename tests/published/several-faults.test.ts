/**
 * Proves that several faults at once are scored as several faults, on an example small enough for a hand.
 * Formula: Heckerman, "A tractable inference algorithm for diagnosing multiple diseases", UAI 1989. The
 * numbers of the network are constructed; the expected ones were worked out apart from this program, by that
 * formula and by adding up all eight states, which agree to 1e-12. Here the formula is carried out again.
 */
import { describe, expect, it } from 'vitest'
import { weigh } from '../../server/diagnosis/posterior.js'
import { beliefs, chanceOf, network, seen } from './noisy-or-network.js'

const priors = [0.01, 0.02, 0.05]
const leaks = [0.02, 0.01, 0.1]
const strengths = [
  [0.8, 0, 0.3],
  [0.5, 0.6, 0],
  [0, 0.7, 0.4],
]
const model = network(priors, leaks, strengths)
const observations = seen(true, true, false)
const weights = weigh(model, observations, [])
const all = weights.trouble + weights.none

/** Heckerman's sum over subsets of the positive findings, signs and all. */
function quickscore(positives: readonly number[], negatives: readonly number[]): number {
  let sum = 0
  for (let mask = 0; mask < 1 << positives.length; mask++) {
    const taken = positives.filter((_, k) => mask & (1 << k))
    const held = [...taken, ...negatives]
    const leaked = held.reduce((p, f) => p * (1 - leaks[f]!), 1)
    const term = priors.reduce(
      (p, prior, i) => p * (prior * held.reduce((q, f) => q * (1 - strengths[f]![i]!), 1) + 1 - prior),
      leaked,
    )
    sum += taken.length % 2 ? -term : term
  }
  return sum
}

describe('three causes; findings 0 and 1 seen, 2 seen to be missing', () => {
  it('gives the chance of these findings', () => {
    expect(chanceOf(model, observations)).toBeCloseTo(0.00389145662, 12)
    expect(chanceOf(model, observations)).toBeCloseTo(quickscore([0, 1], [2]), 14)
  })

  it('gives the chance of each cause', () => {
    const expected = [0.91264827, 0.03237023, 0.0588678]
    beliefs(model, observations).forEach((p, i) => expect(p).toBeCloseTo(expected[i]!, 8))
  })

  it('gives the chance that nothing is wrong, and that the first cause is alone', () => {
    expect(weights.none / all).toBeCloseTo(0.042633, 6)
    expect(weights.sole[0]! / all).toBeCloseTo(0.874233, 6)
  })

  it('gives the joint chances of several, by holding the third cause present or absent', () => {
    const chanceWith = (held: readonly number[]) => {
      const share = held.reduce((p, h, i) => p * (h ? priors[i]! : 1 - priors[i]!), 1)
      return (share * chanceOf(network(held, leaks, strengths), observations)) / all
    }
    expect(chanceWith([1, 0, 0])).toBeCloseTo(0.874233, 6)
    expect(chanceWith([1, 0, 1])).toBeCloseTo(0.029626, 6)
    expect(chanceWith([1, 1, 0])).toBeCloseTo(0.0085, 6)
    expect(chanceWith([1, 1, 1])).toBeCloseTo(0.000288, 6)
  })

  it('differs from the answer of a method that allows one fault only', () => {
    const total = weights.sole.reduce((sum, w) => sum + w, 0)
    const expected = [0.959498, 0.017303, 0.023198]
    weights.sole.forEach((w, i) => expect(w / total).toBeCloseTo(expected[i]!, 6))
    const troubled = weights.there[0]! / weights.trouble
    expect(Math.abs(troubled - expected[0]!)).toBeGreaterThan(0.005)
  })
})
