/** One case compared: the page and the plan pay the same for every way, and what is told of a figure comes true. */
import { describe, expect, it } from 'vitest'
import type { SomeFigures } from '../../shared/figures.js'
import { assess } from '../../server/diagnosis/assess.js'
import { serviceCost } from '../../server/diagnosis/plan/build.js'
import { caseComparison } from '../../server/decision/case-comparison.js'
import { casePlanner } from '../../server/decision/case-plan.js'
import { dials } from '../../server/decision/dials.js'
import { optionsOf } from '../../server/decision/options.js'
import { settingsFrom } from '../../server/decision/shop-settings.js'
import { comparisonOf } from '../../server/remembered/comparisons.js'
import { preparedRulebook } from '../the-rulebook.js'
import { inputsOf } from './situation.js'

const prepared = await preparedRulebook()
const kind = 'universal-motor'
const found = { 'cuts-in-and-out': 'yes', 'side-caps': 'yes', 'brush-length': 4 } as const

describe('the comparison of a case', () => {
  it.each<[SomeFigures, Record<string, 'yes' | 'no'>]>([
    [{}, { 'cuts-in-and-out': 'yes' }],
    [
      { dayWithout: 900, partDays: 4, teaches: 500 },
      { 'cuts-in-and-out': 'yes', 'cord-flex-changes-it': 'no' },
    ],
    [{ feeLow: 2000, feeHigh: 2000 }, { 'wont-start': 'yes' }],
    [{ inWarranty: true, age: 1 }, { 'pulls-or-snags': 'yes' }],
  ])('pays for fixing here what the plan expects: %j %j', async (figures, answers) => {
    const inputs = await inputsOf(prepared, { kind, answers, figures })
    const { now } = await casePlanner(inputs)
    const [here, sent] = optionsOf(now.trouble, { figures: inputs.figures, opened: false })
    const { teaches } = inputs.figures
    // Above by nothing; below only where the plan knows less than what is known when the fault is.
    expect((here!.cost + teaches) / 100).toBeCloseTo(inputs.assessment.next.expectedCost!, 2)
    // The service is paid as the plan pays it: between what can be fixed and what cannot.
    const settings = settingsFrom(inputs.figures, inputs.currency, false)
    const at = (mends: boolean, covered: boolean, renews: number) =>
      serviceCost(settings, { mends, covered, renews })
    expect(sent!.cost / 100).toBeGreaterThanOrEqual(at(true, true, 0) - 1e-6)
    expect(sent!.cost / 100).toBeLessThanOrEqual(at(false, false, 1) + 1e-6)
  })

  it('is worked out once for the same case and figures, and afresh for another figure', async () => {
    const inputs = await inputsOf(prepared, { kind, answers: found, figures: {} })
    const first = await comparisonOf(inputs)
    expect(await comparisonOf({ ...inputs })).toBe(first)
    const dearer = await inputsOf(prepared, { kind, answers: found, figures: { newPrice: 20_000 } })
    expect(await comparisonOf(dearer)).not.toBe(first)
  })
})

describe('what would change the answer', () => {
  it.each<[SomeFigures, Record<string, 'yes' | 'no' | number>]>([
    [{ age: 2, skill: 'S1', hasSpare: true }, found],
    [{ age: 9, hasSpare: true }, { 'tingle-or-shock': 'yes' }],
    [
      { age: 3, hasSpare: true },
      { 'wont-start': 'yes', 'switch-stays-open': 'yes' },
    ],
  ])('does change it when it is entered, three at most: %j %j', async (figures, answers) => {
    const inputs = await inputsOf(prepared, { kind, answers, figures })
    const { flips, advice } = await caseComparison(inputs)
    expect(flips.length).toBeGreaterThan(0)
    expect(flips.length).toBeLessThanOrEqual(3)
    for (const { figure, at, to, now } of flips) {
      expect(at).not.toBe(now)
      const turned = dials[figure].turn(inputs.figures, at)
      const settings = settingsFrom(turned, inputs.currency, false)
      const assessment = await assess(prepared, inputs.situation, settings)
      const there = (await caseComparison({ ...inputs, figures: turned, assessment })).advice
      expect([figure, at, there.option.way, there.clear]).toEqual([figure, at, to, true])
      expect(to).not.toBe(advice.option.way)
    }
  })

  it('says of a near thing that it is one, and tells no value', async () => {
    const inputs = await inputsOf(prepared, { kind, answers: found, figures: { age: 12, hasSpare: true } })
    const { advice, flips } = await caseComparison(inputs)
    if (!advice.clear) expect(flips).toEqual([])
  })
})
