/** The when of a finding: fit for its question, with thresholds that can be met, missed and traced. */
import type { RulebookProblem } from '../../errors.js'
import { comparisonsOf, type Condition } from '../../../shared/conditions.js'
import { canHold, type Domain } from '../satisfiable.js'
import { questionOf } from '../../../shared/finding-rule.js'
import { fileOf, type Check } from '../rulebook.js'

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

export const whenChecks: readonly Check[] = [answerable, thresholdHasSource, canBeBoth]
