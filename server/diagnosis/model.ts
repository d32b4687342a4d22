/** A kind's part of the rulebook, laid out as plain numbers for scoring and planning. */
import type { Evidence } from '../../shared/diagnosis.js'
import type {
  Cause,
  Finding,
  Fix,
  Kind,
  Knowledge,
  Relevance,
  Setup,
  Step,
  Stop,
} from '../../shared/knowledge.js'
import { bookOf } from '../../shared/book-of-kind.js'
import { questionOf, strengthIn } from '../../shared/finding-rule.js'
import type { NoisyOrModel, Observation, Tried } from './noisy-or.js'
import { calibratedPriors } from './prior.js'

/** Everything of one kind, in rulebook order. `priors`, `leaks`, `strengths` go by the same positions. */
export interface KindModel extends NoisyOrModel {
  readonly kind: Kind
  readonly causes: readonly Cause[]
  readonly findings: readonly Finding[]
  readonly steps: readonly Step[]
  readonly fixes: readonly Fix[]
  readonly stops: readonly Stop[]
  readonly relevance: readonly Relevance[]
  readonly setups: readonly Setup[]
  readonly causeIndex: ReadonlyMap<string, number>
  readonly findingIndex: ReadonlyMap<string, number>
  /** question id → the findings that its answer settles */
  readonly findingsOfQuestion: ReadonlyMap<string, readonly number[]>
  /** finding → its question id */
  readonly questionOf: readonly string[]
  /** fix id → chance to cure each cause */
  readonly curesOf: ReadonlyMap<string, Tried>
}

/**
 * @throws RangeError for an unknown kind, a finding over several questions, or shares from which no priors can be
 *         made; the rulebook check finds the last two first
 */
export function modelOf(knowledge: Knowledge, kindId: string): KindModel {
  const book = bookOf(knowledge, kindId)
  const [kind] = book.kinds
  if (!kind) throw new RangeError(`there is no kind ${kindId} in the rulebook`)
  const { causes, findings, fixes, steps, stops, relevance, setups } = book
  const causeIndex = new Map(causes.map((c, i) => [c.id, i]))
  const questions = findings.map(onlyQuestion)
  const findingsOfQuestion = new Map<string, number[]>()
  questions.forEach((question, f) => {
    findingsOfQuestion.set(question, [...(findingsOfQuestion.get(question) ?? []), f])
  })
  return {
    kind,
    causes,
    findings,
    fixes,
    steps,
    stops,
    relevance,
    setups,
    causeIndex,
    findingIndex: new Map(findings.map((f, i) => [f.id, i])),
    findingsOfQuestion,
    questionOf: questions,
    curesOf: new Map(fixes.map((fix) => [fix.id, causes.map((c) => fix.cures[c.id] ?? 0)])),
    priors: calibratedPriors(
      causes.map((c) => c.shares[kindId]!),
      causes.map((c) => c.exclusive),
      kind.severalFaults.share,
    ),
    exclusive: causes.map((c) => c.exclusive),
    leaks: findings.map((f) => f.leak),
    strengths: findings.map((f) => causes.map((c) => strengthIn(f, c.id, kindId) ?? 0)),
  }
}

function onlyQuestion(finding: Finding): string {
  const question = questionOf(finding)
  if (question === undefined) throw new RangeError(`the finding ${finding.id} is over several questions`)
  return question
}

/** Evidence with its findings as positions. */
export function observationsOf(model: KindModel, evidence: readonly Evidence[]): Observation[] {
  return evidence.map((e) => ({
    finding: model.findingIndex.get(e.finding)!,
    present: e.present,
    after: e.after,
  }))
}

/** Cure chances of the fixes tried, in order, each fix once: the same again brings no new chance. */
export function triedOf(model: KindModel, fixesTried: readonly string[]): Tried[] {
  const none = model.causes.map(() => 0)
  return fixesTried.map((id, k) => (fixesTried.indexOf(id) === k ? (model.curesOf.get(id) ?? none) : none))
}
