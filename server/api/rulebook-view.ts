import type { RulebookView } from '../../shared/api.js'
import { bookOf } from '../../shared/book-of-kind.js'
import { comparisonsOf } from '../../shared/conditions.js'
import type { Cause, Finding, Knowledge, Question } from '../../shared/knowledge.js'
import type { Prepared } from '../diagnosis/prepare.js'
import { priorOf } from '../diagnosis/prepare.js'

/** What the scoring and the planning of one kind use, in rulebook order. */
export function rulebookView(knowledge: Knowledge, prepared: Prepared, kind: string): RulebookView {
  const book = bookOf(knowledge, kind)
  const { causes, steps, fixes } = book
  const priors = priorOf(prepared, kind)
  return {
    kind,
    causes: causes.map(({ id, name, shares, exclusive }) => ({
      id,
      name,
      per1000: shares[kind] ?? 0,
      prior: priors.get(id) ?? 0,
      exclusive,
    })),
    findings: book.findings.map((finding) => findingView(finding, kind, causes)),
    questions: [
      ...steps.flatMap(({ id, questions }) => questions.map((question) => questionView(question, id))),
      ...fixes.flatMap(({ outcome }) => (outcome ? [questionView(outcome, null)] : [])),
    ],
    steps: steps.map(({ id, questions, minutes, setups, power, skill, form }) => ({
      id,
      questions: questions.map((question) => question.id),
      minutes,
      setup: setups,
      power,
      skill,
      form,
    })),
    setups: book.setups.map(({ id, minutes, needs, withPower, skill }) => ({
      id,
      minutes,
      needs,
      withPower,
      skill,
    })),
    fixes: fixes.map(({ id, cures, minutes, parts, setups, skill, outcome }) => ({
      id,
      cures,
      minutes,
      parts: parts.reduce((sum, { cost }) => sum + cost, 0),
      setup: setups,
      skill,
      outcome: outcome?.id ?? null,
    })),
    stops: book.stops.map(({ id, grade, when }) => ({ id, grade, when })),
    relevance: book.relevance.map(({ id, when, hides }) => ({ id, when, hides })),
  }
}

function findingView(
  finding: Finding,
  kind: string,
  causes: readonly Cause[],
): RulebookView['findings'][number] {
  const { id, when, topic, leak, strengths, running } = finding
  return {
    id,
    question: comparisonsOf(when)[0]!.fact, // the shape of a condition has one comparison at least
    when,
    topic: topic ?? null,
    leak,
    strengths: Object.fromEntries(
      Object.entries(strengths).flatMap(([cause, strength]) => {
        const here = typeof strength === 'number' ? strength : strength[kind]
        return here !== undefined && causes.some((it) => it.id === cause) ? [[cause, here]] : []
      }),
    ),
    running,
  }
}

function questionView(question: Question, step: string | null): RulebookView['questions'][number] {
  const { id, text, kind, unit, min, max } = question
  return { id, text, step, kind, unit: unit ?? null, min: min ?? null, max: max ?? null }
}
