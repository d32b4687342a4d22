import { describe, expect, it } from 'vitest'
import { modelOf } from '../../server/diagnosis/model.js'
import { findingsFrom } from '../../server/diagnosis/findings.js'
import { answerShowing, answerTable } from '../../server/simulation/answers.js'
import {
  allOf,
  anyOf,
  cause,
  finding,
  fix,
  is,
  KIND,
  question,
  rulebook,
  situation,
  step,
} from '../diagnosis/small-rulebook.js'

const reading = (fact: string, operator: 'lessThan' | 'lessThanInclusive' | 'greaterThan', value: number) =>
  ({ fact, operator, value }) as const

const model = modelOf(
  rulebook({
    causes: [cause('a', 60), cause('b', 40)],
    findings: [
      finding('brush-gone', { a: 0.9 }, { when: allOf(reading('brush', 'lessThan', 3)) }),
      finding('brush-short', { a: 0.8 }, { when: allOf(reading('brush', 'lessThanInclusive', 6)) }),
      finding('runs-fine', { b: 0.5 }, { when: anyOf(is('runs-fine', 'no')) }),
      finding('oil-helps', { b: 0.9 }),
    ],
    steps: [
      step('measure', [question('brush', { kind: 'number', unit: 'mm', min: 0, max: 20 })]),
      step('look', ['runs-fine']),
    ],
    fixes: [fix('oil', { b: 0.9 }, { outcome: question('oil-helps') })],
  }),
  KIND,
)

describe('an answer under which the findings stand as they should', () => {
  it.each([
    [[true, true], 0, 3],
    [[false, true], 3, 6],
    [[false, false], 6, 20],
  ] as const)('a reading for %j lies between %d and %d', async (truths, from, to) => {
    const table = await answerTable(model)
    for (const u of [0, 0.3, 0.999]) {
      const value = answerShowing(table, 'brush', truths, u) as number
      expect(value).toBeGreaterThan(from)
      expect(value).toBeLessThan(to)
      // the product's own reading of the answer
      const { states } = await findingsFrom(model, situation({ brush: value }))
      expect([states.get('brush-gone'), states.get('brush-short')]).toEqual(
        truths.map((is) => (is ? 'yes' : 'no')),
      )
    }
  })

  it('where no reading fits both, fits the first in rulebook order', async () => {
    const table = await answerTable(model)
    const value = answerShowing(table, 'brush', [true, false], 0.5) as number
    expect(value).toBeLessThan(3)
  })

  it('is no where a finding is over the no', async () => {
    const table = await answerTable(model)
    expect(answerShowing(table, 'runs-fine', [true], 0.5)).toBe('no')
    expect(answerShowing(table, 'runs-fine', [false], 0.5)).toBe('yes')
  })

  it('is there for the outcome of a fix, and not for what nobody asks', async () => {
    const table = await answerTable(model)
    expect(answerShowing(table, 'oil-helps', [true], 0.5)).toBe('yes')
    expect(answerShowing(table, 'never-asked', [true], 0.5)).toBeUndefined()
  })
})
