/**
 * Heat, sparks, a hum and a light that blinks are mostly as they should be: whoever comes with one of them is asked that
 * first, and is told what is normal before a third look.
 *
 * Source of every expected value here: common practice, no source.
 */
import { expect, it } from 'vitest'
import type { Answer } from '../../shared/situation.js'
import { ScreenTime, ShopSettings, Situation } from '../../shared/situation.js'
import { assess } from '../../server/diagnosis/assess.js'
import { knowledge, preparedRulebook } from '../the-rulebook.js'

const shop = ShopSettings.parse({ screens: ScreenTime.parse({}) })
const prepared = await preparedRulebook()

/** What is told, and what the tool shows when somebody looks once more; it does its work as ever. */
const worries: readonly (readonly [kind: string, told: string, shows: string])[] = [
  ['universal-motor', 'sparks-bright', 'only-small-sparks'],
  ['magnetic-motor', 'hot-all-over', 'only-warm'],
  ['pivot-motor', 'only-hums-as-ever', 'only-hums-as-ever'],
  ['rotary-corded', 'sparks-bright', 'only-small-sparks'],
  ['rotary-cordless', 'hot-only-after-long-run', 'only-warm'],
  ['brushless-cordless', 'blinks-on-charge', 'only-charge-light-blinks'],
  ['vibrating-cordless', 'hot-all-over', 'only-warm'],
  ['brushless-corded', 'hot-all-over', 'only-warm'],
]

it.each(worries)('%s: %s, and it is normal', async (kind, told, shows) => {
  const dangers = knowledge.steps
    .filter(({ form, kinds }) => form === 'danger' && kinds.includes(kind))
    .flatMap(({ questions }) => questions.map(({ id }): [string, Answer] => [id, 'no']))
  const answers: Record<string, Answer> = { ...Object.fromEntries(dangers), [told]: 'yes' }
  const course: string[] = []
  for (let looks = 0; looks <= 3; looks++) {
    const { next } = await assess(prepared, Situation.parse({ kind, answers }), shop)
    course.push(`${next.step} ${next.id}`)
    if (looks === 0) expect(next.questions, course.join()).toContain('works-as-ever')
    if (next.step !== 'ask' && next.step !== 'check') break
    for (const id of next.questions) answers[id] = id === shows || id === 'works-as-ever' ? 'yes' : 'no'
  }
  expect(course.at(-1), course.join(', ')).toMatch(/^nothing-found /)
})
