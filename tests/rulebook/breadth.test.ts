/** How broad the rulebook set out to be: every drive family that a bench meets, and enough to ask, do and stop at. */
import { describe, expect, it } from 'vitest'
import { knowledge } from '../the-rulebook.js'

describe('the rulebook over all kinds', () => {
  it('has the eight drive families', () => {
    expect(knowledge.kinds.map(({ id }) => id).sort()).toEqual([
      'brushless-corded',
      'brushless-cordless',
      'magnetic-motor',
      'pivot-motor',
      'rotary-corded',
      'rotary-cordless',
      'universal-motor',
      'vibrating-cordless',
    ])
  })
  it('has at least 89 causes and 180 findings', () => {
    expect(knowledge.causes.length).toBeGreaterThanOrEqual(89)
    expect(knowledge.findings.length).toBeGreaterThanOrEqual(180)
  })
  it('asks, checks and measures at least 150 things, each counted once', () => {
    const asked = new Set([
      ...knowledge.steps.flatMap(({ questions }) => questions.map(({ id }) => id)),
      ...knowledge.fixes.flatMap(({ outcome }) => (outcome ? [outcome.id] : [])),
    ])
    expect(asked.size).toBeGreaterThanOrEqual(150)
  })
  it('fixes in at least 80 ways, a job done by other hands in another kind counted once', () => {
    // two fixes for the very same causes are one job, written for the hands of two kinds
    const jobs = new Set(knowledge.fixes.map(({ cures }) => Object.keys(cures).sort().join(' ')))
    expect(knowledge.fixes.length).toBeGreaterThanOrEqual(80)
    expect(jobs.size).toBeGreaterThanOrEqual(80)
  })
  it('stops at 25 dangers or more', () => {
    expect(knowledge.stops.length).toBeGreaterThanOrEqual(25)
  })
  it('takes readings in units, each with a threshold that names its source', () => {
    const numbers = knowledge.steps
      .flatMap(({ questions }) => questions)
      .filter(({ kind }) => kind === 'number')
    expect(new Set(numbers.map(({ unit }) => unit)).size).toBeGreaterThanOrEqual(5)
    for (const { id } of numbers) {
      const over = knowledge.findings.filter(({ when }) => JSON.stringify(when).includes(`"fact":"${id}"`))
      for (const finding of over) expect(finding.threshold?.source, finding.id).toBeDefined()
      expect(over.length, id).toBeGreaterThan(0)
    }
  })
})
