/** The minutes of a next step count its set-ups, whatever a minute costs. */
import { describe, expect, it } from 'vitest'
import { assess } from '../../server/diagnosis/assess.js'
import { ShopSettings, Situation } from '../../shared/situation.js'
import { knowledge, preparedRulebook } from '../the-rulebook.js'

describe('the minutes of a next step', () => {
  it('are those of the step and of the set-ups that do not stand, also where minutes are free', async () => {
    const prepared = await preparedRulebook()
    const danger = knowledge.steps.find((step) => step.form === 'danger')!
    const answers = Object.fromEntries(danger.questions.map((q) => [q.id, 'no' as const]))
    const minutes = async (rate: number, standing: string[]) => {
      const situation = Situation.parse({
        kind: 'universal-motor',
        answers: { ...answers, 'cuts-in-and-out': 'yes', 'runs-after-tap': 'yes', 'sparks-bright': 'yes' },
        standing,
      })
      const { next } = await assess(prepared, situation, ShopSettings.parse({ rate }))
      return { id: next.id, minutes: next.minutes }
    }
    const setups = (ids: readonly string[]): Set<string> =>
      new Set(ids.flatMap((id) => [id, ...setups(knowledge.setups.find((s) => s.id === id)!.needs)]))
    for (const rate of [0.8, 0]) {
      for (const standing of [[], ['plug-out', 'blade-off']]) {
        const next = await minutes(rate, standing)
        const action = [...knowledge.steps, ...knowledge.fixes].find((it) => it.id === next.id)!
        const missing = [...setups(action.setups)].filter((id) => !standing.includes(id))
        const expected = missing.reduce(
          (sum, id) => sum + knowledge.setups.find((s) => s.id === id)!.minutes,
          action.minutes,
        )
        expect(next.minutes).toBeCloseTo(expected, 9)
      }
    }
  })
})
