/** The study's setting: send-in 60, 0.8 a minute, 6 a fix for parts, skill S3 with safety test, every fix sure, a screen at its price. */
import { endCostOf, planProblem } from '../../server/diagnosis/plan/problem.js'
import { knownCost } from '../../server/diagnosis/plan/fix-order.js'
import { buildPlan } from '../../server/diagnosis/plan/build.js'
import type { PlanState } from '../../server/diagnosis/plan/problem.js'
import type { Prepared } from '../../server/diagnosis/prepare.js'
import { kindOf, prepare } from '../../server/diagnosis/prepare.js'
import type { Knowledge } from '../../shared/knowledge.js'
import { ScreenTime, ShopSettings } from '../../shared/situation.js'

export const studyShop = ShopSettings.parse({
  rate: 0.8,
  sendIn: 60,
  turnaroundDays: 0,
  dayWithout: 0,
  replace: 100_000,
  skill: 'S3',
  canSafetyTest: true,
  inWarranty: false,
  screens: ScreenTime.parse({}),
})

/** The real rulebook with every fix sure, 6 for parts, and a service that can mend everything. */
function studyKnowledge(knowledge: Knowledge): Knowledge {
  return {
    ...knowledge,
    causes: knowledge.causes.map((c) => ({ ...c, service: 'mend' as const })),
    fixes: knowledge.fixes.map((f) => ({
      ...f,
      cures: Object.fromEntries(Object.keys(f.cures).map((c) => [c, 1])),
      parts: [{ name: 'parts', cost: 6 }],
    })),
  }
}

export const preparedForStudy = (knowledge: Knowledge): Promise<Prepared> =>
  prepare(studyKnowledge(knowledge))

/** Cost for somebody who knows the causes, nothing set up yet; and whether that is sending in. */
export async function clairvoyantCosts(
  prepared: Prepared,
  kindId: string,
): Promise<(causes: readonly number[]) => { cost: number; sendsIn: boolean }> {
  const kind = kindOf(prepared, kindId)
  const barred = new Set((await kind.barred(studyShop)).keys())
  const { problem, state } = buildPlan({
    prepared: kind,
    states: new Map(),
    evidence: [],
    relevance: [],
    situation: {
      kind: kindId,
      answers: {},
      fixesTried: [],
      answeredAfter: {},
      cannotDo: [],
      stopsLifted: [],
      standing: [],
      looksWanted: 0,
    },
    shop: studyShop,
    barred,
  })
  return (causes) => {
    const own = planProblem({
      ...problem,
      sets: [causes],
      ends: problem.ends.map(() => Float64Array.of(studyShop.sendIn)),
    })
    const { cost, plan } = knownCost(own, state as PlanState, 0)
    return { cost: Math.min(cost, endCostOf(own, 0)), sendsIn: plan === 'end' }
  }
}
