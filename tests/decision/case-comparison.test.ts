/** One case compared: the page and the plan pay the same for every way, and a second look costs nothing. */
import { describe, expect, it } from 'vitest'
import { Figures, usualRecord } from '../../shared/figures.js'
import { Situation } from '../../shared/situation.js'
import { comparisonOf } from '../../server/remembered/comparisons.js'
import { assess } from '../../server/diagnosis/assess.js'
import { serviceCost } from '../../server/diagnosis/plan/build.js'
import { casePlanner } from '../../server/decision/case-plan.js'
import { optionsOf } from '../../server/decision/options.js'
import { settingsFrom } from '../../server/decision/shop-settings.js'
import { knowledge, preparedRulebook } from '../the-rulebook.js'

const prepared = await preparedRulebook()
const { currency } = usualRecord

async function inputsOf(told: Partial<Figures>, answers: Situation['answers']) {
  const figures = Figures.parse(told)
  const kind = 'universal-motor'
  const signs = knowledge.steps.filter(({ form, kinds }) => form === 'danger' && kinds.includes(kind))
  const none = Object.fromEntries(signs.flatMap(({ questions }) => questions.map(({ id }) => [id, 'no'])))
  const situation = Situation.parse({ kind, answers: { ...none, ...answers } })
  const assessment = await assess(prepared, situation, settingsFrom(figures, currency, false))
  return { prepared, situation, assessment, figures, currency, opened: false, disinfected: false }
}

describe('the comparison of a case', () => {
  it.each([
    [{}, { 'cuts-in-and-out': 'yes' }],
    [
      { dayWithout: 900, partDays: 4 },
      { 'cuts-in-and-out': 'yes', 'cord-flex-changes-it': 'no' },
    ],
    [{ feeLow: 2000, feeHigh: 2000 }, { 'wont-start': 'yes' }],
  ] as const)('pays for mending here what the plan expects: %j %j', async (told, answers) => {
    const inputs = await inputsOf(told, answers)
    const { now } = await casePlanner(inputs)
    const [here, sent] = optionsOf(now.trouble, { figures: inputs.figures, opened: false })
    // Above by nothing; below only where the plan knows less than what is reckoned as known.
    expect(here!.cost / 100).toBeCloseTo(inputs.assessment.next.expectedCost, 2)
    // The service is paid as the plan pays it: between what can be mended and what cannot.
    const settings = settingsFrom(inputs.figures, currency, false)
    expect(sent!.cost / 100).toBeGreaterThanOrEqual(serviceCost(settings, true) - 1e-6)
    expect(sent!.cost / 100).toBeLessThanOrEqual(serviceCost(settings, false) + 1e-6)
  })

  it('is worked out once for the same case and figures, and anew for another figure', async () => {
    const inputs = await inputsOf({}, { 'cuts-in-and-out': 'yes' })
    const first = await comparisonOf(inputs)
    expect(await comparisonOf({ ...inputs })).toBe(first)
    const dearer = await inputsOf({ newPrice: 20_000 }, { 'cuts-in-and-out': 'yes' })
    expect(await comparisonOf(dearer)).not.toBe(first)
  })
})
