/** A drawn tool with every question answered that somebody may settle: what isolation is measured on. */
import type { FindingState } from '../../shared/diagnosis.js'
import type { Answer } from '../../shared/situation.js'
import type { KindModel } from '../diagnosis/model.js'
import type { Observation } from '../diagnosis/noisy-or.js'
import type { AnswerTable } from './answers.js'
import { answerShowing, answerTable, toldTruths } from './answers.js'
import { rulesHolding } from './holding.js'
import type { DrawnTool } from './tool.js'

/** Whoever asks: a kind's model, and what may be asked. */
export interface Asker {
  readonly model: KindModel
  readonly table: AnswerTable
  /** ids of the questions that may be asked, in the order of the findings over them */
  readonly questions: readonly string[]
}

export interface Interview {
  /** by finding */
  readonly states: readonly FindingState[]
  /** one finding a topic, in rulebook order, as the score takes it */
  readonly observations: readonly Observation[]
  /** given only for questions that can be answered; a reading lies on the right side of its thresholds */
  readonly answers: Readonly<Record<string, Answer>>
}

/** Asks whatever is in a step or is the outcome of a fix, but for those that are barred. */
export async function askerOf(model: KindModel, barred: ReadonlySet<string>): Promise<Asker> {
  const asked = new Set([
    ...model.steps.filter(({ id }) => !barred.has(id)).flatMap((step) => step.questions.map((q) => q.id)),
    ...model.fixes.filter(({ id }) => !barred.has(id)).flatMap(({ outcome }) => outcome?.id ?? []),
  ])
  return {
    model,
    table: await answerTable(model),
    questions: [...model.findingsOfQuestion.keys()].filter((id) => asked.has(id)),
  }
}

/**
 * Dangers and power do not end it: whatever must be made safe first is taken to be. What a dead tool hides stays
 * unknown, and so does what a rule of relevance takes off the list.
 *
 * @param wrong share of answers that are the contrary of what the tool shows, in [0, 1]
 */
export async function interview(asker: Asker, tool: DrawnTool, wrong = 0): Promise<Interview> {
  const { model, table, questions } = asker
  const states: FindingState[] = model.findings.map(() => 'unknown')
  for (const question of questions) {
    const over = model.findingsOfQuestion.get(question)!
    const contrary = tool.chance('wrong', question) < wrong
    const truths = over.map((f) => tool.shows(f, tool.causes) !== contrary)
    toldTruths(table, question, truths).forEach((is, k) => (states[over[k]!] = is ? 'yes' : 'no'))
  }
  await hide(model, states)
  const answers: Record<string, Answer> = {}
  for (const question of questions) {
    const over = model.findingsOfQuestion.get(question)!
    if (over.some((f) => states[f] === 'unknown')) continue
    const truths = over.map((f) => states[f] === 'yes')
    const answer = answerShowing(table, question, truths, tool.chance('reading', question))
    if (answer !== undefined) answers[question] = answer
  }
  return { states, answers, observations: observationsFrom(model, states) }
}

/**
 * What a dead tool hides first, by what shows without running it; then what the rest makes pointless to ask. In place.
 */
async function hide(model: KindModel, states: FindingState[]): Promise<void> {
  const known = states.slice()
  const standing = (id: string, running: boolean): FindingState => {
    const f = model.findingIndex.get(id)
    return f === undefined || (!running && model.findings[f]!.running) ? 'unknown' : known[f]!
  }
  const dead = await rulesHolding(model.relevance, (id) => standing(id, false))
  if (dead.some((rule) => rule.hides.running))
    model.findings.forEach((finding, f) => finding.running && (known[f] = states[f] = 'unknown'))
  const pointless = await rulesHolding(model.relevance, (id) => standing(id, true))
  const hidden = new Set(pointless.flatMap((rule) => rule.hides.questions))
  model.questionOf.forEach((question, f) => hidden.has(question) && (states[f] = 'unknown'))
}

function observationsFrom(model: KindModel, states: readonly FindingState[]): Observation[] {
  const topics = new Set<string>()
  return states.flatMap((state, finding): Observation[] => {
    if (state !== 'yes' && state !== 'no') return []
    const { topic } = model.findings[finding]!
    if (topic !== undefined) {
      if (topics.has(topic)) return []
      topics.add(topic)
    }
    return [{ finding, present: state === 'yes', after: 0 }]
  })
}
