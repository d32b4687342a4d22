import { expect, it } from 'vitest'
import { comparedSamples } from './compared-samples.js'

const before = { within: [1, 1, 2, 3], causeFirst: 0.75, costs: [10, 20] }

it('finds nothing worse in the same, nor in what is better, nor in the sixth digit', () => {
  expect(comparedSamples(before, before).worse).toEqual([])
  expect(comparedSamples(before, { within: [1, 1, 1, 2], causeFirst: 0.8, costs: [9, 20] }).worse).toEqual([])
  expect(comparedSamples(before, { ...before, costs: [10.00001, 20] }).worse).toEqual([])
})

it('names each mark that is worse, with the figures before and now, and the tools', () => {
  const { worse, report } = comparedSamples(before, {
    within: [1, 2, 2, 3],
    causeFirst: 0.5,
    costs: [10, 22],
  })
  expect(worse).toEqual(['isolated to 1', 'cause first', 'mean cost'])
  expect(report).toContain('isolated to 1: 0.5000 before, 0.2500 now, worse')
  expect(report).toContain('mean cost: 15.0000 before, 16.0000 now, worse')
  expect(report).toContain('tool 1: 1 → 2')
})
