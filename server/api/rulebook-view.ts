import type { RulebookView } from '../../shared/api.js'
import { comparisonsOf } from '../../shared/conditions.js'
import type { Cause, Finding, Knowledge, Question } from '../../shared/knowledge.js'
import type { Prepared } from '../diagnosis/prepare.js'
import { priorOf } from '../diagnosis/prepare.js'

/** What the scoring and the planning of one kind use, in rulebook order. */
export function rulebookView(knowledge: Knowledge, prepared: Prepared, kind: string): RulebookView {
  const ofKind = ({ kinds }: { kinds: readonly string[] }) => kinds.includes(kind)
  const priors = priorOf(prepared, kind)
  const causes = knowledge.causes.filter(({ shares }) => kind in shares)
  const steps = knowledge.steps.filter(ofKind)
  const fixes = knowledge.fixes.filter(ofKind)
  return {
    kind,
    causes: causes.map(({ id, name, shares, exclusive }) => ({
      id,
      name,
      per1000: shares[kind] ?? 0,
      prior: priors.get(id) ?? 0,
      exclusive,
    })),
    findings: knowledge.findings.filter(ofKind).map((finding) => findingView(finding, kind, causes)),
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
    setups: knowledge.setups
      .filter(ofKind)
      .map(({ id, minutes, needs, withPower, skill }) => ({ id, minutes, needs, withPower, skill })),
    fixes: fixes.map(({ id, cures, minutes, parts, setups, skill, outcome }) => ({
      id,
      cures: Object.fromEntries(
        Object.entries(cures).filter(([cause]) => causes.some((it) => it.id === cause)),
      ),
      minutes,
      parts: parts.reduce((sum, { cost }) => sum + cost, 0),
      setup: setups,
      skill,
      outcome: outcome?.id ?? null,
    })),
    stops: knowledge.stops.filter(ofKind).map(({ id, grade, when }) => ({ id, grade, when })),
    relevance: knowledge.relevance.filter(ofKind).map(({ id, when, hides }) => ({ id, when, hides })),
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
