/**
 * Proves that the scoring code reads leaks and strengths as the books do: the noisy-OR tables that textbooks
 * print come out of `weigh` with the causes held present (prior 1) or absent (prior 0).
 */
import { describe, expect, it } from 'vitest'
import { chanceOf, network, seen } from './noisy-or-network.js'

/** P(finding | which causes are there). */
const given = (causes: readonly number[], leak: number, strengths: readonly number[]): number =>
  chanceOf(network(causes, [leak], [strengths]), seen(true))

describe('fever from cold, flu, malaria (Russell & Norvig, Artificial Intelligence: A Modern Approach)', () => {
  // They print inhibitions .6, .2, .1; strengths are what is left of 1.
  const strengths = [1 - 0.6, 1 - 0.2, 1 - 0.1]
  it.each([
    [[0, 0, 0], 0, 1],
    [[0, 0, 1], 0.9, 0.1],
    [[0, 1, 0], 0.8, 0.2],
    [[0, 1, 1], 0.98, 0.02],
    [[1, 0, 0], 0.4, 0.6],
    [[1, 0, 1], 0.94, 0.06],
    [[1, 1, 0], 0.88, 0.12],
    [[1, 1, 1], 0.988, 0.012],
  ])('%j: fever %d, no fever %d', (causes, fever, noFever) => {
    expect(given(causes, 0, strengths)).toBeCloseTo(fever, 12)
    expect(chanceOf(network(causes, [0], [strengths]), seen(false))).toBeCloseTo(noFever, 12)
  })
})

// Form: Pearl, Probabilistic Reasoning in Intelligent Systems, 1988, ch. 4.3; the leak: Henrion, UAI 1989.
// Numbers: constructed here from 1 − (1 − leak)·Π(1 − p), worked out by hand.
describe('with a leak of .1 and strengths .2 and .4', () => {
  it.each([
    [[0, 0], 0.1],
    [[1, 0], 0.28],
    [[0, 1], 0.46],
    [[1, 1], 0.568],
  ])('%j gives %d', (causes, expected) => {
    expect(given(causes, 0.1, [0.2, 0.4])).toBeCloseTo(expected, 12)
  })
})

// Table printed in a university's cognitive-science course sheet, in fractions.
describe('single causes 1/6, 1/3, 7/10', () => {
  it.each([
    [[1, 1, 0], 4 / 9],
    [[1, 0, 1], 3 / 4],
    [[0, 1, 1], 4 / 5],
    [[1, 1, 1], 5 / 6],
  ])('%j gives %d', (causes, expected) => {
    expect(given(causes, 0, [1 / 6, 1 / 3, 7 / 10])).toBeCloseTo(expected, 12)
  })
})
