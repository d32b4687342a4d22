/** One case planned at other figures than its own: what the comparison and its flips are made from. */
import { bookOf } from '../../shared/book-of-kind.js'
import type { Assessment } from '../../shared/diagnosis.js'
import type { Currency, Figures } from '../../shared/figures.js'
import type { Policy } from '../../shared/knowledge.js'
import type { ShopSettings, Situation } from '../../shared/situation.js'
import type { Prepared } from '../diagnosis/assess.js'
import { bestAction } from '../diagnosis/plan.js'
import type { PlanInput } from '../diagnosis/plan/build.js'
import { buildPlan, hypotheses } from '../diagnosis/plan/build.js'
import { rankActions } from '../diagnosis/plan/look-ahead.js'
import { barredByTrying } from '../diagnosis/policy.js'
import { kindOf } from '../diagnosis/prepare.js'
import { dayCost } from './prices.js'
import { minorIn, settingsFrom } from './shop-settings.js'
import type { Trouble } from './trouble.js'
import { troubleFrom } from './trouble.js'
import type { BenchState } from './verdicts.js'

/** A case as the comparison needs it. */
export interface CaseInputs {
  readonly prepared: Prepared
  readonly situation: Situation
  /** made with the settings that follow from `figures` */
  readonly assessment: Assessment
  readonly figures: Figures
  readonly currency: Currency
  /** was the body opened? */
  readonly opened: boolean
  readonly disinfected: boolean
}

export interface Planned {
  readonly trouble: Trouble
  readonly standing: BenchState
}

export interface CasePlanner {
  /** with the figures of the case */
  readonly now: Planned
  /** as the plan itself would have it at other figures; as slow as an assessment */
  inFull(figures: Figures): Promise<Planned>
  /** the same by a shorter look ahead, set right by what it misses at the figures of the case; some milliseconds */
  inShort(figures: Figures): Promise<Planned>
}

/** One action ahead. */
const short = { levels: [{ steps: 6, deeper: 0, cells: 8 }], rare: 1, scan: 6, pairs: 0 } as const

type Built = Awaited<ReturnType<ReturnType<typeof builder>>>

export async function casePlanner(inputs: CaseInputs): Promise<CasePlanner> {
  const { figures, assessment } = inputs
  const build = builder(inputs)
  const base = await build(figures)
  // A set-aside ends the plan before any sum; the comparison still tells what mending would come to.
  const stopped = assessment.next.step === 'stop'
  const first = stopped ? 0 : dangerMinutes(inputs)
  const full = (it: Built): number =>
    bestAction(it.problem, it.state, it.dropped).action.value + first * it.settings.rate
  // many figures come to the same prices, such as days that cost nothing
  const seen = new Map<string, Planned>()
  const planned = stopped ? full(base) : assessment.next.expectedCost
  const missed = planned / Math.max(1e-9, rankActions(base.problem, base.state, short)[0]!.value)
  const quick = (it: Built): number => {
    const [best] = rankActions(it.problem, it.state, short)
    // where even a short look ahead gives up, there is nothing that a longer one saves
    return best!.kind === 'end' ? best!.value : best!.value * missed
  }
  const result = (it: Built, value: number): Planned => ({
    trouble: troubleFrom(kindOf(inputs.prepared, inputs.situation.kind).model, it.problem, it.state, {
      unit: minorIn(inputs.currency),
      rate: it.settings.rate,
      planned: value,
      partWait: (it.figures.partDays * dayCost(it.figures)) / minorIn(inputs.currency),
    }),
    standing: it.standing,
  })
  return {
    now: result(base, planned),
    async inFull(other) {
      const it = await build(other)
      return result(it, full(it))
    },
    async inShort(other) {
      const key = JSON.stringify(settingsFrom(other, inputs.currency, inputs.opened))
      const known = seen.get(key)
      if (known) return known
      const it = await build(other)
      const fresh = result(it, quick(it))
      seen.set(key, fresh)
      return fresh
    },
  }
}

/** The danger questions come before any plan, and their minutes with them. */
function dangerMinutes({ prepared, situation, assessment: { next } }: CaseInputs): number {
  const step = kindOf(prepared, situation.kind).model.steps.find(({ id }) => id === next.id)
  return step?.form === 'danger' ? next.minutes : 0
}

function builder({ prepared, situation, assessment, currency, opened, disinfected }: CaseInputs) {
  const kind = kindOf(prepared, situation.kind)
  const knowledge = bookOf(prepared.knowledge, situation.kind)
  const relevance = kind.model.relevance.filter(({ id }) => assessment.fired.relevance.includes(id))
  const spared = relevance.some(({ hides }) => hides.safetyTest)
  const policyIn = async (settings: ShopSettings): Promise<ReadonlyMap<string, Policy>> =>
    new Map([
      ...(await kind.barred(settings, spared)),
      ...(await barredByTrying(prepared.knowledge, kind.model, settings, situation.fixesTried, spared)),
    ])
  const common = {
    prepared: kind,
    states: assessment.findings,
    evidence: assessment.evidence,
    relevance,
    situation,
  }
  let found: ReturnType<typeof hypotheses> | undefined
  return async (figures: Figures) => {
    const settings = settingsFrom(figures, currency, opened)
    const barredBy = await policyIn(settings)
    const input: PlanInput = {
      ...common,
      shop: settings,
      barred: new Set([...barredBy.keys(), ...situation.cannotDo]),
    }
    found ??= hypotheses(input)
    const standing: BenchState = {
      knowledge,
      findings: assessment.findings,
      barredBy,
      setAside: assessment.stops.some(({ grade }) => grade === 'set-aside'),
      disinfected,
    }
    return { ...buildPlan(input, found), settings, figures, standing }
  }
}
