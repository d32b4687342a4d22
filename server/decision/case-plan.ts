/** One case planned at other figures than its own: what the comparison and its flips are made from. */
import { bookOf } from '../../shared/book-of-kind.js'
import type { Assessment } from '../../shared/diagnosis.js'
import type { Currency, Figures } from '../../shared/figures.js'
import type { Policy } from '../../shared/knowledge.js'
import type { ShopSettings, Situation } from '../../shared/situation.js'
import type { Prepared } from '../diagnosis/assess.js'
import { bestAction } from '../diagnosis/plan/choice.js'
import type { PlanInput } from '../diagnosis/plan/build.js'
import { buildPlan, hypotheses } from '../diagnosis/plan/build.js'
import { barredByTrying } from '../diagnosis/policy.js'
import { kindFor } from '../diagnosis/prepare.js'
import { totalOf } from './course.js'
import { fixedHere } from './options.js'
import { minuteCost } from './prices.js'
import { minorIn, settingsFrom } from './shop-settings.js'
import type { Trouble } from './trouble.js'
import { mayBeFrom } from './trouble.js'
import type { BenchState } from './verdicts.js'

/** A case as the comparison needs it. */
export interface CaseInputs {
  readonly prepared: Prepared
  readonly situation: Situation
  /** made with the settings that follow from `figures` */
  readonly assessment: Pick<Assessment, 'findings' | 'evidence' | 'fired' | 'stops' | 'next'>
  readonly figures: Figures
  readonly currency: Currency
  /** was the body opened? */
  readonly opened: boolean
  readonly disinfected: boolean
}

interface Planned {
  readonly trouble: Trouble
  readonly standing: BenchState
}

export interface CasePlanner {
  /** with the figures of the case */
  readonly now: Planned
  /** as the plan itself would have it at other figures; as slow as an assessment */
  at(figures: Figures): Promise<Planned>
}

type Built = Awaited<ReturnType<ReturnType<typeof builder>>>

export async function casePlanner(inputs: CaseInputs): Promise<CasePlanner> {
  const { figures, assessment, opened } = inputs
  const build = builder(inputs)
  // A set-aside ends the plan before any sum; the comparison still tells what fixing would come to.
  const stopped = assessment.next.step === 'stop'
  const first = stopped ? 0 : dangerMinutes(inputs)
  const plannedCost = (it: Built): number =>
    bestAction(it.problem, it.state, it.dropped).action.value + first * it.settings.rate
  const planned = (it: Built, cost: number): Planned => {
    const unit = minorIn(inputs.currency)
    const { model } = kindFor(inputs.prepared, inputs.situation)
    const mayBe = mayBeFrom(model, it.problem, it.state, { unit, partsToBeHad: it.figures.partsToBeHad })
    // What the plan expects beyond the fixes themselves is the price of not knowing; it knows no rules of the decision.
    const view = { figures: it.figures, opened }
    const known = mayBe.reduce((sum, one) => sum + one.weight * totalOf(fixedHere(view, one).makeup), 0)
    const unknown = Math.max(0, cost * unit - it.figures.teaches - known)
    const minute = minuteCost(it.figures)
    return { trouble: { asking: minute > 0 ? unknown / minute : 0, mayBe }, standing: it.standing }
  }
  const base = await build(figures)
  // The same plan as at other figures, where the next step is not one of its own.
  const told = stopped || first > 0 ? null : assessment.next.expectedCost
  return {
    now: planned(base, told ?? plannedCost(base)),
    async at(other) {
      const it = await build(other)
      return planned(it, plannedCost(it))
    },
  }
}

/** The danger questions come before any plan, and their minutes with them. */
function dangerMinutes({ prepared, situation, assessment: { next } }: CaseInputs): number {
  const step = kindFor(prepared, situation).model.steps.find(({ id }) => id === next.id)
  return step?.form === 'danger' ? next.minutes : 0
}

function builder({ prepared, situation, assessment, currency, opened, disinfected }: CaseInputs) {
  const kind = kindFor(prepared, situation)
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
