import { expect, it } from 'vitest'
import { comparedSamples } from './compared-samples.js'

const twenty = <T>(first: readonly T[], rest: T) => Array.from({ length: 20 }, (_, k) => first[k] ?? rest)
const sample = { within: twenty([1, 2], 1), causeFirst: twenty([0.5], 1), costs: twenty([10, 30], 20) }
const before = { a: sample, b: sample }

it('finds nothing worse in the same, nor in what is better, nor in the sixth digit', () => {
  expect(comparedSamples(before, before).worse).toEqual([])
  const better = { within: twenty([1], 1), causeFirst: twenty([], 1), costs: twenty([9], 20) }
  expect(comparedSamples(before, { a: better, b: better }).worse).toEqual([])
  const rounded = { ...sample, costs: sample.costs.map((cost) => cost + 0.00001) }
  expect(comparedSamples(before, { a: rounded, b: rounded }).worse).toEqual([])
})

it('leaves to luck what one tool lost, and what some gained where others lost', () => {
  expect(comparedSamples(before, { ...before, b: { ...sample, within: twenty([1, 3], 1) } }).worse).toEqual(
    [],
  )
  const mixed = { ...sample, costs: twenty([14, 27], 20) }
  expect(comparedSamples(before, { ...before, b: mixed }).worse).toEqual([])
})

it('names each mark that is worse beyond luck, with the figures before and now, and the tools', () => {
  const bad = {
    within: twenty([1, 2, 2, 2, 2, 2, 2], 1),
    causeFirst: twenty([0, 0, 0, 0, 0], 1),
    costs: twenty([], 22),
  }
  const { worse, report } = comparedSamples(before, { a: sample, b: bad })
  expect(worse).toEqual(['isolated to 1', 'cause first', 'cost, as a loss'])
  // by hand: 38 of 40 before, 33 of 40 now
  expect(report).toContain('isolated to 1: 0.9500 before, 0.8250 now, worse')
  expect(report).toContain('b 2: 1 → 2')
})
