/** Policy speaks of what was tried: the same fix again brings no new chance (method, section 3), and says so. */
import { describe, expect, it } from 'vitest'
import { assess } from '../../server/diagnosis/assess.js'
import { ShopSettings, Situation } from '../../shared/situation.js'
import { knowledge, preparedRulebook } from '../the-rulebook.js'

describe('a fix that was tried', () => {
  it('is barred with the reason of the policy rule, and only it', async () => {
    const prepared = await preparedRulebook()
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
