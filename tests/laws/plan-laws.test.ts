/**
 * Laws of the plan over the real rulebook, whatever is answered: a look that the plan asks for saves something, so that
 * no two in a row can have saved nothing; a screen shows four questions at most, each of which could still be answered;
 * and somebody who can tell nothing is let go soon.
 */
import { describe, expect, it } from 'vitest'
import { assess } from '../../server/diagnosis/assess.js'
import { kindOf } from '../../server/diagnosis/prepare.js'
import type { Assessment } from '../../shared/diagnosis.js'
import type { Answer, Situation } from '../../shared/situation.js'
import { ShopSettings, Situation as SituationShape } from '../../shared/situation.js'
import { preparedRulebook } from '../the-rulebook.js'
import { generator } from '../study/random-rulebook.js'

const shop = ShopSettings.parse({ skill: 'S3', canSafetyTest: true })
const prepared = await preparedRulebook()

/** Every look of a case whose danger lines are settled, until the plan mends or ends. */
async function looks(
  kind: string,
  complaint: string,
  answerTo: () => Answer,
  longest = 12,
): Promise<Assessment['next'][]> {
  const { model } = kindOf(prepared, kind)
  const numbers = new Set(
    model.steps
      .flatMap((s) => s.questions)
      .filter((q) => q.kind === 'number')
      .map((q) => q.id),
  )
  const danger = model.steps.find(({ form }) => form === 'danger')!
  const answers: Record<string, Answer> = {
    ...Object.fromEntries(danger.questions.map(({ id }) => [id, 'no' as const])),
    [complaint]: 'yes',
  }
  let situation: Situation = SituationShape.parse({ kind, answers })
  const seen: Assessment['next'][] = []
  while (seen.length < longest) {
    const { next } = await assess(prepared, situation, shop)
    if (next.step !== 'ask' && next.step !== 'check') break
    seen.push(next)
    const given = next.questions.map((id): [string, Answer] => [
      id,
      numbers.has(id) ? 'cant-tell' : answerTo(),
    ])
    situation = { ...situation, answers: { ...situation.answers, ...Object.fromEntries(given) } }
  }
  return seen
}

const complaints: [string, string][] = [
  ['universal-motor', 'slows-down'],
  ['universal-motor', 'pulls-or-snags'],
  ['magnetic-motor', 'loud-clatter'],
  ['pivot-motor', 'pulls-or-snags'],
  ['rotary-corded', 'blade-gets-hot'],
  ['rotary-cordless', 'short-run-time'],
  ['brushless-cordless', 'wont-charge'],
]

describe('whatever is answered', () => {
  it.each(complaints)('%s: %s', async (kind, complaint) => {
    const random = generator(complaint.length * 7919)
    const answerTo = (): Answer => {
      const u = random()
      return u < 0.25 ? 'cant-tell' : u < 0.4 ? 'yes' : 'no'
    }
    for (const { id, saves, questions, folded, outlook } of await looks(kind, complaint, answerTo)) {
      expect(questions.length).toBeGreaterThan(0)
      expect(questions.length).toBeLessThanOrEqual(4)
      expect(new Set([...questions, ...folded]).size).toBe(questions.length + folded.length)
      // asked because it must be known, whatever it saves
      if (outlook === null) continue
      expect(saves, `${id} saves nothing`).toBeGreaterThan(0)
      expect(outlook.left).toBeGreaterThanOrEqual(1)
      expect(outlook.changes).toBeGreaterThanOrEqual(0)
      expect(outlook.changes).toBeLessThanOrEqual(1)
    }
  })
})

it.each(complaints)('"can’t tell" to everything ends within 6 screens: %s, %s', async (kind, complaint) => {
  expect((await looks(kind, complaint, () => 'cant-tell')).length).toBeLessThanOrEqual(6)
})

describe('the first look is a telling one (common practice, no source)', () => {
  const battery = [
    'on-the-charger',
    'running-on-the-pack',
    'pack-and-charger-story',
    'contacts-look',
    'on-and-off-its-lead',
    'charger-volts',
  ]
  it.each([
    ['rotary-cordless', 'short-run-time'],
    ['rotary-cordless', 'wont-charge'],
    ['brushless-cordless', 'short-run-time'],
    ['brushless-cordless', 'wont-charge'],
  ])('%s: %s begins with the battery', async (kind, complaint) => {
    const [first] = await looks(kind, complaint, () => 'no', 1)
    if (first) expect(battery).toContain(first.id)
  })
})
