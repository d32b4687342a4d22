/** Situations as they come up at a bench, drawn with a fixed generator so that every run times the same ones. */
import type { KindModel } from '../../server/diagnosis/model.js'
import { comparisonsOf } from '../../shared/conditions.js'
import type { Answer, Situation } from '../../shared/situation.js'
import { Situation as SituationShape } from '../../shared/situation.js'

/** How an answer comes about: as the tool with its fault would give it, or by a coin, true half the time. */
export type Answering = 'as-the-fault-shows' | 'by-a-coin'

const mostAnswers = 25

/**
 * A complaint of two, no danger, up to 25 answers more; every third with one or two fixes tried before some
 * of the answers.
 */
export function situationsOf(
  model: KindModel,
  count: number,
  random: () => number,
  answering: Answering,
): Situation[] {
  return Array.from({ length: count }, (_, number) => {
    const faults = faultsOf(model, random)
    const danger = model.steps.find(({ form }) => form === 'danger')?.questions ?? []
    const answers: Record<string, Answer> = Object.fromEntries(danger.map(({ id }) => [id, 'no']))
    const answeredAfter: Record<string, number> = {}
    const fixesTried = number % 3 === 2 ? someFixes(model, 1 + Math.floor(random() * 2), random) : []
    const asked = shuffled([...model.findingsOfQuestion.keys()], random).filter((id) => !(id in answers))
    const told = asked.filter((id) => shows(model, id, faults) > 0.3).slice(0, 2)
    for (const id of told) answers[id] = answerOf(model, id, true)
    const more = Math.round((mostAnswers * number) / (count - 1))
    for (const id of asked.filter((it) => !told.includes(it)).slice(0, more)) {
      const chance = answering === 'by-a-coin' ? 0.5 : shows(model, id, faults)
      answers[id] = random() < 0.06 ? 'cant-tell' : answerOf(model, id, random() < chance)
      if (fixesTried.length > 0) answeredAfter[id] = Math.floor(random() * (fixesTried.length + 1))
    }
    return SituationShape.parse({ kind: model.kind.id, answers, answeredAfter, fixesTried })
  })
}

/** One cause by its prior; in one case of ten a second one. */
function faultsOf(model: KindModel, random: () => number): number[] {
  const total = model.priors.reduce((sum, p) => sum + p, 0)
  const draw = (): number => {
    let left = random() * total
    return Math.max(
      0,
      model.priors.findIndex((p) => (left -= p) < 0),
    )
  }
  return random() < 0.1 ? [draw(), draw()] : [draw()]
}

/** P(the question's first finding is true) with these faults: leaky noisy-OR. */
function shows(model: KindModel, question: string, faults: readonly number[]): number {
  const f = model.findingsOfQuestion.get(question)![0]!
  return 1 - faults.reduce((miss, c) => miss * (1 - model.strengths[f]![c]!), 1 - model.leaks[f]!)
}

/** An answer that makes the question's first finding true, or false. */
function answerOf(model: KindModel, question: string, isTrue: boolean): Answer {
  const finding = model.findings[model.findingsOfQuestion.get(question)![0]!]!
  const [condition] = comparisonsOf(finding.when)
  if (typeof condition?.value !== 'number') return isTrue ? 'yes' : 'no'
  return condition.value + (condition.operator.startsWith('greater') === isTrue ? 1 : -1)
}

function someFixes(model: KindModel, count: number, random: () => number): string[] {
  return shuffled(
    model.fixes.filter(({ ends }) => ends === undefined).map(({ id }) => id),
    random,
  ).slice(0, count)
}

/** Fisher and Yates. */
function shuffled<Thing>(things: readonly Thing[], random: () => number): Thing[] {
  const result = [...things]
  for (let k = result.length - 1; k > 0; k--) {
    const other = Math.floor(random() * (k + 1))
    ;[result[k], result[other]] = [result[other]!, result[k]!]
  }
  return result
}
