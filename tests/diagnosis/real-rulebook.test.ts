/**
 * Proves on the rulebook as shipped that the diagnosis always ends: whatever is answered, no question is asked
 * twice, no fix is proposed twice, and after at most as many steps as the rulebook has there is an end. And
 * that every set of answers can be scored, all findings true included.
 */
import { describe, expect, it } from 'vitest'
import { assess, score } from '../../server/diagnosis/assess.js'
import { kindOf } from '../../server/diagnosis/prepare.js'
import { mostPositives, weigh } from '../../server/diagnosis/posterior.js'
import { comparisonsOf } from '../../shared/conditions.js'
import type { Answer, Situation } from '../../shared/situation.js'
import { ShopSettings, Situation as SituationShape } from '../../shared/situation.js'
import { generator } from '../study/random-rulebook.js'
import { preparedRulebook } from '../the-rulebook.js'

const kind = 'universal-motor'
const prepared = await preparedRulebook()
const { model } = kindOf(prepared, kind)

/** An answer that makes every finding of the question true, as far as they do not contradict each other. */
function makesTrue(questionId: string): Answer {
  const [first] = model.findingsOfQuestion.get(questionId)!
  const [condition] = comparisonsOf(model.findings[first!]!.when)
  if (condition!.operator === 'equal') return condition!.value as Answer
  if (condition!.operator === 'in') return condition!.value[0] as Answer
  return condition!.operator.startsWith('less') ? condition!.value - 1 : condition!.value + 1
}

// How long scoring takes is for `npm run bench`; here, that its work is bounded: beyond so many positives it is a search.
describe('whatever is answered is scored', () => {
  const observed = (present: (finding: number) => boolean) =>
    model.findings.map((_, finding) => ({ finding, present: present(finding), after: 0 }))
  const isSound = ({ trouble, there }: ReturnType<typeof weigh>) =>
    trouble > 0 && there.every((weight) => weight >= 0 && weight <= trouble * (1 + 1e-9))

  it('all findings true', () => {
    const all = observed(() => true)
    expect(all.length).toBeGreaterThan(130)
    const weights = weigh(model, all, [])
    expect(weights.exact).toBe(false)
    expect(isSound(weights)).toBe(true)
  })
  it('all findings true after half the fixes, the others before any', () => {
    const all = observed(() => true).map((it) => ({ ...it, after: it.finding % 6 }))
    const tried = model.fixes.slice(0, 10).map((f) => model.curesOf.get(f.id)!)
    expect(isSound(weigh(model, all, tried))).toBe(true)
  })
  it('exactly, up to a number of positives among all the others that are missing', () => {
    const tenthOf = (most: number) => observed((finding) => finding % 10 === 0 && finding < 10 * most)
    expect(weigh(model, tenthOf(mostPositives), []).exact).toBe(true)
    expect(weigh(model, tenthOf(mostPositives + 1), []).exact).toBe(false)
  })
  it('from answers, the rules engine included', async () => {
    const answers = Object.fromEntries([...model.findingsOfQuestion.keys()].map((q) => [q, makesTrue(q)]))
    const { causes, evidence } = await score(prepared, SituationShape.parse({ kind, answers }))
    expect(evidence.filter((e) => e.present).length).toBeGreaterThan(60)
    for (const c of causes) expect(Number.isFinite(c.probability)).toBe(true)
  })
})

type Open = { -readonly [K in keyof Situation]: Situation[K] }
const shops = [
  ShopSettings.parse({}),
  ShopSettings.parse({ skill: 'S1' }),
  ShopSettings.parse({ skill: 'S4', canSafetyTest: true, dayWithout: 30 }),
  ShopSettings.parse({ skill: 'S3', canSafetyTest: true, inWarranty: true }),
]

/** Answers at random to the end; returns how many steps it took. */
async function walk(seed: number): Promise<{ steps: number; end: string }> {
  const random = generator(1 + seed * 7919)
  for (let k = 0; k < 10; k++) random()
  const shop = shops[seed % shops.length]!
  const situation: Open = SituationShape.parse({ kind })
  const yesShare = [0.5, 0.1, 0.03, 0][seed % 4]!
  const untold = seed % 5 === 0 ? 1 : 0.2
  const answerTo = (question: string, dangerous: boolean): Answer => {
    if (random() < untold) return 'cant-tell'
    const asked = model.steps.flatMap((s) => s.questions).find((q) => q.id === question)
    if (asked?.kind === 'number') return (asked.min ?? 0) + random() * ((asked.max ?? 100) - (asked.min ?? 0))
    return random() < (dangerous ? 0 : yesShare) ? 'yes' : 'no'
  }
  const bound = model.steps.length + model.fixes.length + 5
  const refused = new Set<string>()
  for (let steps = 1; steps <= bound; steps++) {
    const { next, barred } = await assess(prepared, situation, shop)
    if (next.expectedCost !== null)
      expect(Number.isFinite(next.expectedCost), `step ${steps}: cost`).toBe(true)
    if (next.step !== 'ask' && next.step !== 'check' && next.step !== 'fix') return { steps, end: next.step }
    const id = next.id!
    expect(barred.has(id), `${id} is barred`).toBe(false)
    expect(refused.has(id), `${id} cannot be done here`).toBe(false)
    const isDanger = model.steps.find((s) => s.id === id)?.form === 'danger'
    // "Can't tell" settles no danger line: who still cannot says so, and nothing that needs power is offered any more.
    const stillUnsure = isDanger && next.questions.every((q) => situation.answers[q] === 'cant-tell')
    if (stillUnsure || (!isDanger && random() < 0.15)) {
      refused.add(id)
      situation.cannotDo = [...situation.cannotDo, id]
      continue
    }
    for (const q of next.questions) {
      if (next.step !== 'fix') expect(situation.answers[q], `${q} was answered before`).toBeUndefined()
    }
    if (next.step === 'fix') {
      expect(situation.fixesTried, `${id} was tried before`).not.toContain(id)
      for (const q of next.questions) {
        situation.answers = { ...situation.answers, [q]: random() < 0.3 ? 'yes' : 'no' }
        situation.answeredAfter = { ...situation.answeredAfter, [q]: situation.fixesTried.length }
      }
      situation.fixesTried = [...situation.fixesTried, id]
      continue
    }
    expect(next.questions.length, `${id} asks nothing`).toBeGreaterThan(0)
    for (const q of next.questions) {
      situation.answers = { ...situation.answers, [q]: answerTo(q, isDanger) }
      situation.answeredAfter = { ...situation.answeredAfter, [q]: situation.fixesTried.length }
    }
  }
  throw new Error(`no end after ${bound} steps`)
}

describe('answering at random', () => {
  it.each(Array.from({ length: 8 }, (_, k) => k))(
    'walk %i comes to an end, every step a new one',
    async (k) => {
      const { end } = await walk(k)
      expect(['offer', 'send-in', 'retire', 'stop', 'nothing-found']).toContain(end)
    },
  )
})
