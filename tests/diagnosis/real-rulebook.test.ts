/**
 * Proves on the rulebook as shipped that the diagnosis always ends: whatever is answered, no question is asked
 * twice, no fix is proposed twice, and after at most as many steps as the rulebook has there is an end. And
 * that no set of answers, all findings true included, takes longer than the 300 ms.
 */
import { beforeAll, describe, expect, it } from 'vitest'
import type { Prepared } from '../../server/diagnosis/assess.js'
import { assess, prepare, score } from '../../server/diagnosis/assess.js'
import type { KindModel } from '../../server/diagnosis/model.js'
import { mostPositives, weigh } from '../../server/diagnosis/posterior.js'
import { loadKnowledge } from '../../server/rulebook/load.js'
import { comparisonsOf } from '../../shared/conditions.js'
import type { Knowledge } from '../../shared/knowledge.js'
import type { Answer, Situation } from '../../shared/situation.js'
import { ShopSettings, Situation as SituationShape } from '../../shared/situation.js'
import { generator } from '../study/random-rulebook.js'

const kind = 'universal-motor'
let knowledge: Knowledge
let prepared: Prepared
let model: KindModel
beforeAll(async () => {
  knowledge = loadKnowledge()
  prepared = await prepare(knowledge)
  model = prepared.kinds.get(kind)!.model
})

/** An answer that makes every finding of the question true, as far as they do not contradict each other. */
function makesTrue(questionId: string): Answer {
  const [first] = model.findingsOfQuestion.get(questionId)!
  const [condition] = comparisonsOf(model.findings[first!]!.when)
  if (condition!.operator === 'equal') return condition!.value as Answer
  if (condition!.operator === 'in') return condition!.value[0] as Answer
  return condition!.operator.startsWith('less') ? condition!.value - 1 : condition!.value + 1
}

/** Milliseconds of processor time, so that whatever else the machine does is not counted. */
async function median(times: number, act: () => unknown): Promise<number> {
  const taken: number[] = []
  for (let k = 0; k < times; k++) {
    const begun = process.cpuUsage()
    await act()
    taken.push(process.cpuUsage(begun).user / 1000)
  }
  return taken.sort((a, b) => a - b)[Math.floor(times / 2)]!
}

// A bound on what may happen at all (issue, scoring), no benchmark: those are `npm run bench`.
describe('no set of answers takes more than 300 ms to score', () => {
  it('all findings true', async () => {
    const all = model.findings.map((_, finding) => ({ finding, present: true, after: 0 }))
    expect(all.length).toBeGreaterThan(130)
    expect(await median(5, () => weigh(model, all, []))).toBeLessThan(300)
    const { exact } = weigh(model, all, [])
    expect(exact).toBe(false)
  })
  it('all findings true after half the fixes, the others before any', async () => {
    const all = model.findings.map((_, finding) => ({ finding, present: true, after: finding % 6 }))
    const tried = model.fixes.slice(0, 10).map((f) => model.curesOf.get(f.id)!)
    expect(await median(3, () => weigh(model, all, tried))).toBeLessThan(300)
  })
  it('all findings true but a few missing ones, and the most that is scored exactly', async () => {
    const last = 10 * mostPositives
    const exactly = model.findings.map((_, finding) => ({
      finding,
      present: finding % 10 === 0 && finding < last,
      after: 0,
    }))
    expect(await median(5, () => weigh(model, exactly, []))).toBeLessThan(300)
    expect(weigh(model, exactly, []).exact).toBe(true)
  })
  it('from answers, the rules engine included', async () => {
    const answers = Object.fromEntries([...model.findingsOfQuestion.keys()].map((q) => [q, makesTrue(q)]))
    const situation = SituationShape.parse({ kind, answers })
    const { causes, evidence } = await score(prepared, situation)
    expect(evidence.filter((e) => e.present).length).toBeGreaterThan(60)
    for (const c of causes) expect(Number.isFinite(c.probability)).toBe(true)
    expect(await median(5, () => score(prepared, situation))).toBeLessThan(300)
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
    expect(Number.isFinite(next.expectedCost), `step ${steps}: cost`).toBe(true)
    if (next.step !== 'ask' && next.step !== 'check' && next.step !== 'fix') return { steps, end: next.step }
    const id = next.id!
    expect(barred.has(id), `${id} is barred`).toBe(false)
    expect(refused.has(id), `${id} cannot be done here`).toBe(false)
    const isDanger = model.steps.find((s) => s.id === id)?.form === 'danger'
    if (!isDanger && random() < 0.15) {
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
  it.each(Array.from({ length: 20 }, (_, k) => k))(
    'walk %i comes to an end, every step a new one',
    async (k) => {
      const { end } = await walk(k)
      expect(['send-in', 'retire', 'stop', 'nothing-found']).toContain(end)
    },
  )
})
