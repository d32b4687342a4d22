/** Policy speaks of what was tried: the same fix again brings no new chance (method, section 3), and says so. */
import { describe, expect, it } from 'vitest'
import { assess, prepare } from '../../server/diagnosis/assess.js'
import { loadKnowledge } from '../../server/rulebook/load.js'
import { ShopSettings, Situation } from '../../shared/situation.js'

describe('a fix that was tried', () => {
  it('is barred with the reason of the policy rule, and only it', async () => {
    const knowledge = loadKnowledge()
    const prepared = await prepare(knowledge)
    const rule = knowledge.policy.find((p) => p.id === 'tried-already')!
    const barred = async (fixesTried: string[]) =>
      (
        await assess(
          prepared,
          Situation.parse({ kind: 'universal-motor', fixesTried }),
          ShopSettings.parse({}),
        )
      ).barred
    expect((await barred([])).has('oil-blade')).toBe(false)
    const after = await barred(['oil-blade'])
    expect(after.get('oil-blade')).toBe(rule.because)
    expect(after.has('wash-blade')).toBe(false)
  })
})
