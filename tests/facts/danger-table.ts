/**
 * For every danger answer, in every kind: what is still offered. A shop that may do all and has all is asked, so that
 * only danger can hold something back. `npm run dangers` prints it for a reader.
 */
import { bookOf } from '../../shared/book-of-kind.js'
import { comparisonsOf } from '../../shared/conditions.js'
import type { Assessment } from '../../shared/diagnosis.js'
import { questionOf } from '../../shared/finding-rule.js'
import type { Fix, Knowledge, Step, Stop } from '../../shared/knowledge.js'
import type { Answer } from '../../shared/situation.js'
import { ShopSettings, Situation } from '../../shared/situation.js'
import { papersFor } from '../../server/decision/papers.js'
import type { Prepared } from '../../server/diagnosis/assess.js'
import { assess } from '../../server/diagnosis/assess.js'
import { findingsFrom } from '../../server/diagnosis/findings.js'
import { gateBefore } from '../../server/diagnosis/gates.js'
import { buildPlan } from '../../server/diagnosis/plan/build.js'
import { isOpen } from '../../server/diagnosis/plan/problem.js'
import { kindOf } from '../../server/diagnosis/prepare.js'

export interface Row {
  readonly kind: string
  readonly question: string
  readonly answer: 'yes' | 'cant-tell'
  /** the stop that shows first; absent where none does */
  readonly stop: Stop | undefined
  readonly assessment: Assessment
  /** what a page may offer now */
  readonly steps: readonly Step[]
  readonly fixes: readonly Fix[]
  /** lines of the packing list that hold */
  readonly packing: readonly string[]
}

const able = ShopSettings.parse({ skill: 'S4', canSafetyTest: true })

/** Every question whose yes leads to a stop, and "can't tell" to every line of the danger list. */
export function dangerAnswers(
  knowledge: Knowledge,
): { kind: string; question: string; answer: Row['answer'] }[] {
  return knowledge.kinds.flatMap(({ id: kind }) => {
    const { stops, findings, steps } = bookOf(knowledge, kind)
    const over = new Set(stops.flatMap(({ when }) => comparisonsOf(when).map(({ fact }) => fact)))
    const leading = findings.flatMap((it) => (over.has(it.id) ? [questionOf(it)!] : []))
    const lines = steps.filter(({ form }) => form === 'danger').flatMap(({ questions }) => questions)
    return [
      ...[...new Set(leading)].map((question) => ({ kind, question, answer: 'yes' as const })),
      ...lines.map(({ id }) => ({ kind, question: id, answer: 'cant-tell' as const })),
    ]
  })
}

/** The answer given, every other danger line answered "no". */
export async function rowOf(
  knowledge: Knowledge,
  prepared: Prepared,
  { kind, question, answer }: ReturnType<typeof dangerAnswers>[number],
): Promise<Row> {
  const book = bookOf(knowledge, kind)
  const danger = book.steps.find(({ form }) => form === 'danger')!
  const answers: Record<string, Answer> = {
    ...Object.fromEntries(danger.questions.map(({ id }) => [id, 'no' as const])),
    [question]: answer,
  }
  const situation = Situation.parse({ kind, answers })
  const assessment = await assess(prepared, situation, able)
  const ofKind = kindOf(prepared, kind)
  const { states, evidence, relevance, stops } = await findingsFrom(ofKind.model, situation)
  const barred = new Set((await ofKind.barred(able)).keys())
  const input = { prepared: ofKind, states, evidence, relevance, situation, shop: able, barred }
  const { problem, state } = buildPlan(input)
  const ended = stops.some(({ grade }) => grade === 'set-aside')
  const free = (action: Step | Fix): boolean =>
    !ended && gateBefore(ofKind.model, action, situation, relevance)?.step !== danger
  return {
    kind,
    question,
    answer,
    stop: book.stops.find(({ id }) => id === assessment.stops[0]?.id),
    assessment,
    steps: ofKind.model.steps.filter((step, s) => isOpen(state, problem.steps[s]!) && free(step)),
    fixes: ofKind.model.fixes.filter((fix, f) => !problem.fixes[f]!.barred && free(fix)),
    packing: (await papersFor(book, states)).flatMap(({ id, on }) => (on === 'packing' ? [id] : [])),
  }
}
