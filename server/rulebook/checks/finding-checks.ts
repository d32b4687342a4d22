/** Findings: each over one question that somebody asks, each pointing somewhere. */
import { comparisonsOf } from '../../../shared/conditions.js'
import type { Finding } from '../../../shared/knowledge.js'
import { questionOf, strengthIn } from '../../../shared/finding-rule.js'
import { canHold, type Domain } from '../satisfiable.js'
import { causesOf, fileOf, isAskedIn, listed, type Check, type Rulebook } from '../rulebook.js'

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

const reachable: Check = {
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

/** What can be answered; a number within its bounds. */
function answersTo(book: Rulebook, question: string): Domain {
  const asked = book.askedById.get(question)?.question
  if (asked?.kind === 'yes-no') return { values: ['yes', 'no'] }
  return { min: asked?.min ?? -1e9, max: asked?.max ?? 1e9 }
}

const oneWitness: Check = {
  name: 'one-witness',
  description:
    'Findings over the same question exclude each other, and then share no topic: each answer tells one thing.',
  run: (book) => {
    const earlier = new Map<string, Finding>()
    return book.knowledge.findings.flatMap((finding) => {
      const question = questionOf(finding)
      if (question === undefined) return []
      return finding.kinds.flatMap((kind) => {
        const other = earlier.get(`${kind} ${question}`)
        earlier.set(`${kind} ${question}`, finding)
        if (other === undefined) return []
        const file = fileOf('findings', finding.id)
        const also = `${fileOf('findings', other.id)} is over the question "${question}" too`
        if (canHold({ all: [other.when, finding.when] }, () => answersTo(book, question))) {
          const message = `${also}, and one answer can make both true: of two such only one could count`
          return [
            { file, field: 'when', message, remedy: 'let them exclude each other, or ask two questions' },
          ]
        }
        if (finding.topic === undefined || finding.topic !== other.topic) return []
        const message = `${also} and shares its topic, so this one would never count`
        return [{ file, field: 'topic', message, remedy: 'remove the topic: they exclude each other anyway' }]
      })
    })
  },
}

export const findingChecks: readonly Check[] = [
  overOneQuestion,
  reachable,
  pointsSomewhere,
  aboveLeak,
  oneWitness,
]
