/** Findings: each over one question that somebody asks, each pointing somewhere. */
import type { RulebookProblem } from '../../errors.js'
import { comparisonsOf, type Condition } from '../../../shared/conditions.js'
import { canHold, type Domain } from '../satisfiable.js'
import { causesOf, fileOf, isAskedIn, listed, questionOf, strengthIn, type Check } from '../rulebook.js'

const overOneQuestion: Check = {
  name: 'over-one-question',
  description: "A finding's when is over the answer to exactly one question.",
  run: (book) =>
    book.knowledge.findings.flatMap(({ id, when }) => {
      const facts = [...new Set(comparisonsOf(when).map((it) => it.fact))]
      if (facts.length === 1) return []
      const message = `it is over ${facts.length} questions (${listed(facts)})`
      return [
        {
          file: fileOf('findings', id),
          field: 'when',
          message,
          remedy: 'make one finding for each question',
        },
      ]
    }),
}

const asked: Check = {
  name: 'finding-reachable',
  description: "A finding's question is asked in every kind that has the finding.",
  needs: ['steps', 'fixes'],
  run: (book) =>
    book.knowledge.findings.flatMap((finding) => {
      const question = questionOf(finding)
      if (question === undefined) return []
      const without = finding.kinds.filter((kind) => !isAskedIn(book, question, kind))
      if (without.length === 0) return []
      const message = `no step or fix for ${listed(without)} asks the question "${question}", so nobody reaches this finding`
      return [
        {
          file: fileOf('findings', finding.id),
          field: 'when',
          message,
          remedy: 'add it to a step or correct the name',
        },
      ]
    }),
}

const answerable: Check = {
  name: 'when-fits-question',
  description: 'A when compares a yes-no with "yes", and a number with lessThan… or greaterThan… .',
  run: (book) =>
    book.knowledge.findings.flatMap(({ id, when }) =>
      comparisonsOf(when).flatMap((it) => {
        const question = book.askedById.get(it.fact)?.question
        const at = (message: string, remedy: string): RulebookProblem[] => [
          { file: fileOf('findings', id), field: 'when', message, remedy },
        ]
        if (question?.kind === 'yes-no' && !(it.operator === 'equal' && it.value === 'yes')) {
          return at(
            `"${it.fact}" is answered yes or no`,
            'compare it: { "operator": "equal", "value": "yes" }',
          )
        }
        if (question?.kind === 'number' && (it.operator === 'equal' || it.operator === 'in')) {
          return at(
            `"${it.fact}" is a number, which is never ${it.operator} to something measured`,
            'use lessThan, lessThanInclusive, greaterThan or greaterThanInclusive',
          )
        }
        return []
      }),
    ),
}

const thresholdHasSource: Check = {
  name: 'threshold-has-source',
  description: 'A finding over a number says where its threshold comes from; one over a yes-no has none.',
  run: (book) =>
    book.knowledge.findings.flatMap((finding) => {
      const question = book.askedById.get(questionOf(finding) ?? '')?.question
      if (question === undefined || (question.kind === 'number') === (finding.threshold !== undefined))
        return []
      const file = fileOf('findings', finding.id)
      return question.kind === 'number'
        ? [
            {
              file,
              field: 'threshold',
              message: 'is missing',
              remedy: 'say why this number, and name its source',
            },
          ]
        : [
            {
              file,
              field: 'threshold',
              message: `"${question.id}" is no number`,
              remedy: 'remove the threshold',
            },
          ]
    }),
}

const canBeBoth: Check = {
  name: 'can-be-true-and-false',
  description: 'A when over a number holds for some value from min to max, and fails for some.',
  run: (book) =>
    book.knowledge.findings.flatMap((finding) => {
      const question = book.askedById.get(questionOf(finding) ?? '')?.question
      if (question?.min === undefined || question.max === undefined || question.min >= question.max) return []
      const domain: Domain = { min: question.min, max: question.max }
      const range = `for any "${question.id}" from ${question.min} to ${question.max}`
      const at = (message: string): RulebookProblem[] => [
        {
          file: fileOf('findings', finding.id),
          field: 'when',
          message,
          remedy: 'correct the number or the range',
        },
      ]
      if (!canHold(finding.when, () => domain)) return at(`it can never hold ${range}`)
      return canHold(negated(finding.when), () => domain)
        ? []
        : at(`it always holds ${range}, so it tells nothing`)
    }),
}

const pointsSomewhere: Check = {
  name: 'finding-points',
  description: 'A finding points to a cause in every kind that has it.',
  needs: ['causes'],
  run: (book) =>
    book.knowledge.findings.flatMap((finding) => {
      const without = finding.kinds.filter((kind) =>
        causesOf(book, kind).every((cause) => strengthIn(finding, cause.id, kind) === undefined),
      )
      if (without.length === 0) return []
      const message = `it points to no cause of ${listed(without)}`
      return [
        {
          file: fileOf('findings', finding.id),
          field: 'strengths',
          message,
          remedy: 'add a strength or remove the kind',
        },
      ]
    }),
}

const aboveLeak: Check = {
  name: 'strength-above-leak',
  description: 'Every strength is above the leak: at or below it, a finding tells its cause from no other.',
  run: (book) =>
    book.knowledge.findings.flatMap(({ id, leak, strengths }) =>
      Object.entries(strengths).flatMap(([cause, strength]) => {
        const values = typeof strength === 'number' ? [['', strength] as const] : Object.entries(strength)
        return values
          .filter(([, value]) => value <= leak)
          .map(([kind, value]) => ({
            file: fileOf('findings', id),
            field: kind === '' ? `strengths.${cause}` : `strengths.${cause}.${kind}`,
            message: `${value} is not above the leak (${leak}), so it tells this cause from no other`,
            remedy: 'raise it, lower the leak, or remove the cause',
          }))
      }),
    ),
}

const oneWitness: Check = {
  name: 'one-witness',
  description: 'Findings over the same question share a topic: sides of one number are one witness, not two.',
  run: (book) =>
    book.knowledge.findings.flatMap((finding, i) => {
      const question = questionOf(finding)
      const earlier = book.knowledge.findings
        .slice(0, i)
        .find((it) => questionOf(it) === question && it.kinds.some((kind) => finding.kinds.includes(kind)))
      if (question === undefined || earlier === undefined) return []
      if (finding.topic !== undefined && finding.topic === earlier.topic) return []
      const message = `${fileOf('findings', earlier.id)} is over the question "${question}" too, under another topic or none`
      return [
        { file: fileOf('findings', finding.id), field: 'topic', message, remedy: 'give both the same topic' },
      ]
    }),
}

/** True where a condition over one number is false. Equality is left to `when-fits-question`. */
function negated(condition: Condition): Condition {
  if ('all' in condition) return { any: condition.all.map(negated) }
  if ('any' in condition) return { all: condition.any.map(negated) }
  const { fact } = condition
  switch (condition.operator) {
    case 'lessThan':
      return { fact, operator: 'greaterThanInclusive', value: condition.value }
    case 'lessThanInclusive':
      return { fact, operator: 'greaterThan', value: condition.value }
    case 'greaterThan':
      return { fact, operator: 'lessThanInclusive', value: condition.value }
    case 'greaterThanInclusive':
      return { fact, operator: 'lessThan', value: condition.value }
    default:
      return { any: [{ fact, operator: 'lessThan', value: Infinity }] }
  }
}

export const findingChecks: readonly Check[] = [
  overOneQuestion,
  asked,
  answerable,
  thresholdHasSource,
  canBeBoth,
  pointsSomewhere,
  aboveLeak,
  oneWitness,
]
