/** Questions: of a form that can be answered, and asked for a reason. */
import { comparisonsOf } from '../../../shared/conditions.js'
import { fileOf, listed, type Check } from '../rulebook.js'

const numberHasRange: Check = {
  name: 'number-has-range',
  description:
    'A number is asked for with its unit, its least and its greatest value; a yes-no with none of them.',
  run: (book) =>
    book.asked.flatMap(({ question, folder, by, field }) => {
      const file = fileOf(folder, by.id)
      const { kind, unit, min, max } = question
      if (kind === 'yes-no') {
        if (unit === undefined && min === undefined && max === undefined) return []
        const message = `"${question.id}" is answered yes or no, yet has a unit, min or max`
        return [{ file, field, message, remedy: 'remove them or set "kind": "number"' }]
      }
      if (unit === undefined || min === undefined || max === undefined) {
        const message = `the number "${question.id}" lacks its unit, min or max`
        return [{ file, field, message, remedy: 'give all three, so that a slip of the finger is caught' }]
      }
      if (min < max) return []
      const message = `the least value of "${question.id}" (${min}) is not below the greatest (${max})`
      return [{ file, field: `${field}.min`, message, remedy: 'correct min or max' }]
    }),
}

const questionUsed: Check = {
  name: 'question-used',
  description: 'Some finding is over each question: an answer that changes nothing is not worth the asking.',
  needs: ['findings'],
  run: (book) => {
    const used = new Set(
      book.knowledge.findings.flatMap((it) => comparisonsOf(it.when).map((part) => part.fact)),
    )
    return book.asked
      .filter((it) => !used.has(it.question.id))
      .map((it) => ({
        file: fileOf(it.folder, it.by.id),
        field: `${it.field}.id`,
        message: `no finding uses the question "${it.question.id}"`,
        remedy: 'add a finding over it or remove the question',
      }))
  },
}

/** What is heard as a number, and what as a count or a share that has a limit; the rest is heard or not. */
const numbers = new Set<string>(['rate', 'droop', 'falls'])
const limited = new Set<string>(['sinks', 'drop-outs', 'grows', 'fades'])

const heardFits: Check = {
  name: 'heard-fits',
  description:
    'A question that sound answers is a number where sound gives one, else a yes-no with its limit; each kind that asks it says how it sounds.',
  needs: ['kinds'],
  run: (book) => {
    const silent = new Set(book.knowledge.kinds.filter(({ sound }) => !sound).map(({ id }) => id))
    return book.asked.flatMap(({ question, folder, by, field }) => {
      const { heard, kind } = question
      if (!heard) return []
      const at = { file: fileOf(folder, by.id), field: `${field}.heard` }
      const problems = []
      if (numbers.has(heard.what) !== (kind === 'number')) {
        const message = `"${heard.what}" does not answer a question of the kind "${kind}"`
        problems.push({
          ...at,
          message,
          remedy: `${listed([...numbers])} answer numbers, all others a yes-no`,
        })
      }
      if (limited.has(heard.what) !== (heard.atLeast !== undefined)) {
        const message = `"${heard.what}" ${heard.atLeast === undefined ? 'lacks the limit' : 'has a limit that means nothing'}`
        problems.push({
          ...at,
          message,
          remedy: `give "atLeast" to ${listed([...limited])}, and to nothing else`,
        })
      }
      for (const id of by.kinds.filter((id) => silent.has(id))) {
        const message = `the kind "${id}" does not say how it sounds`
        problems.push({ ...at, message, remedy: `add "sound" to rules/kinds/${id}.json` })
      }
      return problems
    })
  },
}

export const questionChecks: readonly Check[] = [numberHasRange, questionUsed, heardFits]
