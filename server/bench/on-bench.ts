import type { BenchCase } from '../../shared/case.js'
import type { Assessment } from '../../shared/diagnosis.js'
import type { Currency } from '../../shared/figures.js'
import type { Kind, Knowledge, Question, Step, Stop } from '../../shared/knowledge.js'
import { comparisonsOf } from '../../shared/conditions.js'
import type { ShopSettings, Situation } from '../../shared/situation.js'
import type { Part, PartMove } from '../../shared/part.js'
import { batchOfCase } from '../parts/take.js'
import type { FiguresInForce } from '../decision/figures-of.js'
import { bookOf } from '../../shared/book-of-kind.js'
import { lookupOf } from '../../shared/rulebook-index.js'
import { CaseNotFound } from '../errors.js'
import type { AtHand } from '../wiring/deps.js'
import { reckoned } from './reckoning.js'
import { learnedOf } from '../learning/gather.js'
import type { KnownTool } from '../tools/known.js'
import { knownTool, oddsOf } from '../tools/known.js'

/** All that a page of one case is made from. */
export interface OnBench {
  readonly knowledge: Knowledge
  /** what the plan reckons with in this case, in major units */
  readonly shop: ShopSettings
  /** the figures behind it, in minor units, and whose word each one is; one object while nothing changes */
  readonly inForce: FiguresInForce
  /** the same had nothing been said in this case: what a figure goes back to */
  readonly otherwise: FiguresInForce
  readonly currency: Currency
  /** has something that was done in this case opened the body? */
  readonly opened: boolean
  readonly bench: BenchCase
  readonly situation: Situation
  readonly assessment: Assessment
  /** what the shop knows of the tool; null where the case is tied to none */
  readonly known: KnownTool | null
  /** what lies on the shop's shelf */
  readonly shelf: readonly Part[]
  /** what the closed case took from it; by part */
  readonly taken: readonly PartMove[]
}

/** The case of this id with all that its pages need. @throws CaseNotFound */
export async function onBench(hand: AtHand, id: string): Promise<OnBench> {
  const bench = await hand.cases.get(id)
  if (!hand.knowledge.kinds.some((kind) => kind.id === bench.kind)) throw new CaseNotFound(bench.id)
  return withAssessment(hand, bench)
}

/** A case of a kind that the rulebook has, assessed as it stands. */
export async function withAssessment(hand: AtHand, bench: BenchCase): Promise<OnBench> {
  const [known, shelf] = await Promise.all([knownTool(hand, bench), hand.parts.list()])
  const taken = shelf.length > 0 ? await hand.parts.movesOf([batchOfCase(bench.id)]) : []
  const {
    situation: told,
    settings: shop,
    ...figures
  } = reckoned(bench, hand.knowledge, hand.shop.record, known?.figures)
  const learned = await learnedOf(hand, bench.kind)
  const situation = {
    ...told,
    ...(known && known.wear.length > 0 && { odds: oddsOf(known) }),
    ...(learned && { learned }),
  }
  const assessment = await hand.assessments.of(situation, shop)
  return {
    knowledge: bookOf(hand.knowledge, bench.kind),
    shop,
    ...figures,
    bench,
    situation,
    assessment,
    known,
    shelf,
    taken,
  }
}

/** The kind of the tool. @throws Error when the case names a kind that the rulebook has not (the store checks it) */
export function kindOnBench({ knowledge, bench }: Pick<OnBench, 'knowledge' | 'bench'>): Kind {
  const kind = lookupOf(knowledge).kinds.get(bench.kind)
  if (!kind) throw new Error(`case ${bench.id} is of the kind "${bench.kind}", which is not in the rulebook`)
  return kind
}

/** The step with the danger questions of a kind; a kind has one at most. */
export function dangerStep(knowledge: Knowledge, kind: string): Step | null {
  return knowledge.steps.find((step) => step.form === 'danger' && step.kinds.includes(kind)) ?? null
}

/** The danger questions that nobody has answered, not even with "can't tell". */
export function dangerOpen({ knowledge, bench, situation }: OnBench): readonly Question[] {
  const asked = dangerStep(knowledge, bench.kind)?.questions ?? []
  return asked.filter((question) => situation.answers[question.id] === undefined)
}

/** The questions whose answers can set off a stop. */
export function questionsOfStop(knowledge: Knowledge, stop: Stop): readonly string[] {
  const { questionOf } = lookupOf(knowledge)
  return [...new Set(comparisonsOf(stop.when).map(({ fact }) => questionOf.get(fact) ?? fact))]
}

/** Is nothing inside this tool at mains, so that no electrical safety test is called for? */
export function safetyTestSpared({ knowledge, assessment }: OnBench): boolean {
  return knowledge.relevance.some(
    ({ id, hides }) => hides.safetyTest && assessment.fired.relevance.includes(id),
  )
}
