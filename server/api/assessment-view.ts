import type { AssessmentView } from '../../shared/api.js'
import { comparisonsOf } from '../../shared/conditions.js'
import type { Assessment, Weight } from '../../shared/diagnosis.js'
import type { Knowledge } from '../../shared/knowledge.js'

/** An assessment as the API gives it: maps become objects, findings get their words. */
export function assessmentView(knowledge: Knowledge, assessment: Assessment): AssessmentView {
  const [stop] = assessment.stops
  const findings = new Map(knowledge.findings.map((finding) => [finding.id, finding]))
  const weight = ({ finding, decibans }: Weight): AssessmentView['causes'][number]['for'][number] => {
    const rule = findings.get(finding)
    return {
      finding,
      question: (rule && comparisonsOf(rule.when)[0]?.fact) ?? finding,
      says: rule?.says ?? finding,
      decibans,
    }
  }
  const { questions, folded, separates, ...next } = assessment.next
  return {
    stop: stop ? { id: stop.id, grade: stop.grade, now: [...stop.now], firstAid: [...stop.firstAid] } : null,
    exact: assessment.exact,
    doubt: assessment.doubt,
    causes: assessment.causes
      .map((cause) => ({
        id: cause.id,
        name: cause.name,
        probability: cause.probability,
        sole: cause.sole,
        for: cause.for.map(weight),
        against: cause.against.map(weight),
      }))
      .sort((a, b) => b.probability - a.probability),
    next: { ...next, questions: [...questions], folded: [...folded], separates: [...separates] },
    stops: assessment.stops.map(({ id, grade }) => ({ id, grade })),
    unsettled: [...assessment.unsettled],
    findings: Object.fromEntries(assessment.findings),
    hidden: Object.fromEntries(assessment.hidden),
    barred: Object.fromEntries(assessment.barred),
  }
}
