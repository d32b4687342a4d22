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
  /** finding → what the fix that it tells of would have cured, by cause; those that tell of one */
  readonly earlier: ReadonlyMap<number, Tried>
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
  const curesOf = new Map(fixes.map((fix) => [fix.id, causes.map((c) => fix.cures[c.id] ?? 0)]))
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
    curesOf,
    earlier: new Map(
      findings.flatMap((finding, f): [number, Tried][] => {
        const cured = earlierFix({ causes, curesOf }, finding)
        return cured ? [[f, cured]] : []
      }),
    ),
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

/** What was seen and what was tried, as scoring takes it. */
export interface History {
  readonly observations: readonly Observation[]
  readonly tried: readonly Tried[]
}

/**
 * Evidence with its findings as positions, and the cure chances of every fix tried, in order. What was done before the
 * case, and changed nothing, counts as tried before all that was seen, with the chance that it was done right. Each
 * fix of the case counts once: the same again brings no new chance.
 */
export function historyOf(
  model: KindModel,
  evidence: readonly Evidence[],
  fixesTried: readonly string[],
): History {
  const none = model.causes.map(() => 0)
  const seen = new Set(evidence.flatMap(({ finding, present }) => (present ? [finding] : [])))
  const earlier = evidence.filter(
    ({ finding, present }) => present && model.earlier.has(model.findingIndex.get(finding)!),
  )
  const tried = fixesTried.map((id, k) =>
    fixesTried.indexOf(id) === k ? (model.curesOf.get(id) ?? none) : none,
  )
  return {
    observations: evidence.map((e) => ({
      finding: model.findingIndex.get(e.finding)!,
      present: e.present,
      after: e.after + earlier.length,
      ...(earlier.includes(e) ? { tells: earlier.indexOf(e) } : {}),
    })),
    tried: [
      ...earlier.map(({ finding }) =>
        earlierFix(model, model.findings[model.findingIndex.get(finding)!]!, seen)!,
      ),
      ...tried,
    ],
  }
}

/**
 * What the fix that a finding tells of would have cured, by cause: its chance, and that it was done right.
 *
 * @param seen ids of findings that are true
 * @returns undefined where the finding tells of no fix of this kind
 */
function earlierFix(
  { causes, curesOf }: Pick<KindModel, 'causes' | 'curesOf'>,
  { earlier }: Finding,
  seen: ReadonlySet<string> = new Set(),
): Tried | undefined {
  const fixes = earlier?.fixes.flatMap((fix) => [curesOf.get(fix) ?? []]).filter((it) => it.length > 0) ?? []
  if (!earlier || fixes.length === 0) return undefined
  const { less } = earlier
  const done = less && seen.has(less.finding) ? less.done : earlier.done
  return causes.map((_, c) => done * Math.max(...fixes.map((cures) => cures[c]!)))
}
