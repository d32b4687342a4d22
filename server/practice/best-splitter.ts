/** Which question tells faults that look the same apart best. */
import { questionOf, strengthIn } from '../../shared/finding-rule.js'
import type { Confusion, Finding, Knowledge, Question, Step } from '../../shared/knowledge.js'
import { takesApart } from '../../shared/taken-apart.js'

/** Where a question is asked: a step, or a repair whose outcome it is. */
export type AskedAt = Pick<Step, 'setups' | 'minutes'>

/** A question among the rivals of a confusion, when just one of them is there. */
export interface Split {
  readonly finding: Finding
  readonly question: Question
  readonly step: AskedAt
  /** by rival, in the confusion's order: chance of a yes with that one there, in (0, 1) */
  readonly yes: readonly number[]
  /** chance of a yes over all of them, each as likely as its share among them */
  readonly yesOverall: number
  /**
   * Information that the answer is expected to bring about which of them it is, in bits, 0 or more (Shannon 1948):
   * Good's expected weight of evidence for the rival that is there, against what was believed before.
   */
  readonly bits: number
}

/**
 * What can be asked of a confusion, each question once: those that take nothing apart before those that do, and of
 * either the most telling first.
 *
 * @param book the rulebook of one kind
 */
export function splitsOf(book: Knowledge, confusion: Confusion): Split[] {
  const ids = new Set([...confusion.splitters.map(({ finding }) => finding), ...confusion.checks])
  const splits = book.findings
    .filter(({ id }) => ids.has(id))
    .flatMap((finding) => splitOf(book, confusion, finding) ?? [])
    .sort((a, b) => apartLast(book, a, b) || b.bits - a.bits)
  return splits.filter((it, k) => splits.findIndex(({ question }) => question.id === it.question.id) === k)
}

function splitOf(book: Knowledge, { rivals }: Confusion, finding: Finding): Split | undefined {
  const asked = askedAt(book, finding)
  if (!asked) return undefined
  const kind = book.kinds[0]!.id
  const shares = rivals.map((id) => book.causes.find((cause) => cause.id === id)?.shares[kind] ?? 0)
  const whole = shares.reduce((sum, share) => sum + share, 0)
  const yes = rivals.map((id) => 1 - (1 - finding.leak) * (1 - (strengthIn(finding, id, kind) ?? 0)))
  const yesOverall = yes.reduce((sum, chance, r) => sum + (shares[r]! / whole) * chance, 0)
  const bits = yes.reduce((sum, chance, r) => sum + (shares[r]! / whole) * divergence(chance, yesOverall), 0)
  return { finding, ...asked, yes, yesOverall, bits }
}

/** Of a yes-or-no answer with chance `p` from one with chance `q` (Kullback & Leibler 1951), in bits. */
const divergence = (p: number, q: number): number =>
  p * Math.log2(p / q) + (1 - p) * Math.log2((1 - p) / (1 - q))

/** Of several ways the one that takes nothing apart, then the quickest. */
function askedAt(book: Knowledge, finding: Finding): Pick<Split, 'question' | 'step'> | undefined {
  const id = questionOf(finding)
  const onSteps = book.steps.flatMap((step) =>
    step.questions.filter((question) => question.id === id).map((question) => ({ question, step })),
  )
  const onFixes = book.fixes.flatMap((step) =>
    step.outcome && step.outcome.id === id ? [{ question: step.outcome, step }] : [],
  )
  return [...onSteps, ...onFixes].sort((a, b) => apartLast(book, a, b) || a.step.minutes - b.step.minutes)[0]
}

type At = Pick<Split, 'step'>

/** Orders what takes nothing apart before what does. */
const apartLast = ({ setups }: Knowledge, a: At, b: At): number =>
  Number(takesApart(setups, a.step.setups)) - Number(takesApart(setups, b.step.setups))
