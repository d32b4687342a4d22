/**
 * What a person would answer: for every question the answers that can be, with the findings that hold under each,
 * tabulated once by running the rules engine, which alone matches conditions to facts.
 */
import { comparisonsOf } from '../../shared/conditions.js'
import type { Finding, Question } from '../../shared/knowledge.js'
import { onceForEach } from '../../shared/once-for.js'
import type { Answer } from '../../shared/situation.js'
import { firedRules } from '../diagnosis/fired-rules.js'
import type { KindModel } from '../diagnosis/model.js'

/** One way to answer a question: a word, or a stretch of readings between two thresholds. */
interface Possible {
  readonly answer: 'yes' | 'no' | { readonly from: number; readonly to: number }
  /** by finding over the question, in rulebook order: does it hold? */
  readonly holds: readonly boolean[]
}

/** By question id. */
export type AnswerTable = ReadonlyMap<string, readonly Possible[]>

const tabulated = onceForEach<Finding, Promise<readonly Possible[]>>()

export async function answerTable(model: KindModel): Promise<AnswerTable> {
  const asked = new Map(
    [
      ...model.steps.flatMap((step) => step.questions),
      ...model.fixes.flatMap((fix) => fix.outcome ?? []),
    ].map((question) => [question.id, question]),
  )
  const table = new Map<string, readonly Possible[]>()
  for (const [id, indices] of model.findingsOfQuestion) {
    const question = asked.get(id)
    if (question)
      table.set(
        id,
        await possibleAnswers(
          question,
          indices.map((f) => model.findings[f]!),
        ),
      )
  }
  return table
}

/** Remembered by the first finding and the numbers that matter: rules keep their objects where a rulebook is changed elsewhere. */
function possibleAnswers(question: Question, findings: readonly Finding[]): Promise<readonly Possible[]> {
  const [first] = findings
  const key = JSON.stringify([question.kind, question.min, question.max, findings.map((f) => f.when)])
  return tabulated(first!, key, () => tabulate(question, findings))
}

function tabulate(question: Question, findings: readonly Finding[]): Promise<readonly Possible[]> {
  const answers: Possible['answer'][] =
    question.kind === 'number' ? stretches(question, findings) : ['yes', 'no']
  return Promise.all(
    answers.map(async (answer) => {
      const value = typeof answer === 'string' ? answer : (answer.from + answer.to) / 2
      const held = new Set(await firedRules(findings, { [question.id]: value }))
      return { answer, holds: findings.map(({ id }) => held.has(id)) }
    }),
  )
}

/** The readings that can be, cut at every threshold. */
function stretches({ min, max }: Question, findings: readonly Finding[]) {
  const thresholds = findings.flatMap((finding) =>
    comparisonsOf(finding.when).flatMap(({ value }) => (typeof value === 'number' ? value : [])),
  )
  const width = Math.max(1, ...thresholds.map(Math.abs)) // where the rulebook bounds nothing
  const low = min ?? Math.min(...thresholds) - width
  const high = max ?? Math.max(...thresholds) + width
  const cuts = [...new Set([low, ...thresholds.filter((t) => t > low && t < high), high])].sort(
    (a, b) => a - b,
  )
  return cuts.slice(1).map((to, k) => ({ from: cuts[k]!, to }))
}

/**
 * The answer under which the question's findings hold as they should; where none fits them all, the one that fits the
 * first in rulebook order, because of one topic the first one counts.
 *
 * @param truths by finding over the question, in rulebook order
 * @param u      in [0, 1): where in its stretch a reading lies
 * @returns undefined for a question that nobody asks
 */
export function answerShowing(
  table: AnswerTable,
  question: string,
  truths: readonly boolean[],
  u: number,
): Answer | undefined {
  const best = bestFit(table.get(question) ?? [], truths)
  if (!best) return undefined
  if (typeof best.answer === 'string') return best.answer
  const { from, to } = best.answer
  const reading = from + (to - from) * (0.05 + 0.9 * u)
  const rounded = Math.round(reading * 10) / 10
  return rounded > from && rounded < to ? rounded : reading
}

/** The truths of a question's findings as its answer will tell them. */
export function toldTruths(
  table: AnswerTable,
  question: string,
  truths: readonly boolean[],
): readonly boolean[] {
  return bestFit(table.get(question) ?? [], truths)?.holds ?? truths
}

function bestFit(possible: readonly Possible[], truths: readonly boolean[]): Possible | undefined {
  const fit = ({ holds }: Possible) =>
    holds.reduce((sum, is, k) => (is === truths[k] ? sum + 2 ** -k : sum), 0)
  let best: Possible | undefined
  for (const one of possible) if (!best || fit(one) > fit(best)) best = one
  return best
}
