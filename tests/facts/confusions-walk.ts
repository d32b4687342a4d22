/**
 * The guided flow, walked for one fault: every question is answered as the tool would most likely show it with that
 * fault alone in it, and what is done is put together as the product does it.
 */
import { bookOf } from '../../shared/book-of-kind.js'
import type { CaseEvent } from '../../shared/case.js'
import { comparisonsOf } from '../../shared/conditions.js'
import type { Assessment } from '../../shared/diagnosis.js'
import { questionOf, strengthIn } from '../../shared/finding-rule.js'
import type { Finding, Fix, Knowledge, Step } from '../../shared/knowledge.js'
import type { Answer } from '../../shared/situation.js'
import { ShopSettings, Situation } from '../../shared/situation.js'
import { situationFrom } from '../../server/cases/fold.js'
import type { Prepared } from '../../server/diagnosis/assess.js'
import { assess, score } from '../../server/diagnosis/assess.js'

/** A bench that may open a body, so that it shows when one is opened. */
const bench = ShopSettings.parse({ skill: 'S3', canSafetyTest: true })

/** More than this and the flow has lost its way. */
const mostTurns = 60

export interface Walk {
  readonly kind: string
  readonly fault: string
  readonly told: string
  /** steps and fixes, in the order they came */
  readonly course: readonly (Step | Fix)[]
  /** findings settled, with the place in the course where that was; what was told or looked at before is at -1 */
  readonly settled: ReadonlyMap<string, number>
  /** the fix it came to, if that cures the fault */
  readonly cure: Fix | undefined
  readonly end: Assessment
}

/** What the trade's words ask of one kind's book. */
export class KindBook {
  readonly book: Knowledge
  private readonly findings: ReadonlyMap<string, Finding>

  constructor(
    knowledge: Knowledge,
    readonly kind: string,
  ) {
    this.book = bookOf(knowledge, kind)
    this.findings = new Map(this.book.findings.map((finding) => [finding.id, finding]))
  }

  readonly has = (cause: string): boolean => this.book.causes.some(({ id }) => id === cause)
  readonly finding = (id: string): Finding | undefined => this.findings.get(id)

  /** P(finding true | this cause alone), leak included; 0 where the kind has no such finding. */
  chance(id: string, cause: string): number {
    const finding = this.findings.get(id)
    if (!finding) return 0
    return 1 - (1 - finding.leak) * (1 - (strengthIn(finding, cause, this.kind) ?? 0))
  }

  points(id: string, cause: string): boolean {
    const finding = this.findings.get(id)
    return finding !== undefined && strengthIn(finding, cause, this.kind) !== undefined
  }

  /** The answer to the finding's question that makes it true, or not true. */
  answer(id: string, shows: boolean): Readonly<Record<string, Answer>> {
    const finding = this.findings.get(id)!
    const [comparison] = comparisonsOf(finding.when)
    const question = questionOf(finding)!
    if (typeof comparison!.value !== 'number') return { [question]: shows ? 'yes' : 'no' }
    const above = comparison!.operator.startsWith('greater')
    return { [question]: comparison!.value + (above === shows ? 1 : -1) }
  }

  /** Findings that are true and that are not, as answers; what this kind does not ask is left out. */
  answers(yes: readonly string[], no: readonly string[] = []): Record<string, Answer> {
    const of = (ids: readonly string[], shows: boolean) =>
      ids.filter((id) => this.findings.has(id)).map((id) => this.answer(id, shows))
    return Object.assign({}, ...of(yes, true), ...of(no, false)) as Record<string, Answer>
  }

  /** How a question is answered with this cause in the tool: the likeliest of the answers that it can have. */
  likeliest(question: string, cause: string): Answer {
    const over = this.book.findings.filter((finding) => questionOf(finding) === question)
    const candidates: readonly Answer[] = [
      ...new Set(over.flatMap(({ id }) => [false, true].map((shows) => this.answer(id, shows)[question]!))),
    ]
    const likelihood = (answer: Answer) =>
      over.reduce((product, finding) => {
        const chance = this.chance(finding.id, cause)
        return product * (holds(finding, answer) ? chance : 1 - chance)
      }, 1)
    return candidates.reduce((best, answer) => (likelihood(answer) > likelihood(best) ? answer : best))
  }

  /** The steps that ask for the finding, or the fixes whose outcome tells it. */
  askedBy(id: string): readonly (Step | Fix)[] {
    const question = questionOf(this.findings.get(id)!)!
    return [
      ...this.book.steps.filter(({ questions }) => questions.some((one) => one.id === question)),
      ...this.book.fixes.filter(({ outcome }) => outcome?.id === question),
    ]
  }

  /** Does getting there bare the inside of the body? */
  opens({ setups }: Step | Fix): boolean {
    const all = new Set(setups)
    for (const id of all)
      for (const need of this.book.setups.find((setup) => setup.id === id)?.needs ?? []) all.add(need)
    return this.book.setups.some((setup) => all.has(setup.id) && (setup.opensBody || setup.skill > 'S2'))
  }
}

function holds(finding: Finding, answer: Answer): boolean {
  const [{ operator, value } = { operator: 'equal', value: '' }] = comparisonsOf(finding.when)
  if (typeof value !== 'number' || typeof answer !== 'number') return answer === value
  if (operator.startsWith('greater')) return operator === 'greaterThan' ? answer > value : answer >= value
  return operator === 'lessThan' ? answer < value : answer <= value
}

export interface Beliefs {
  /** cause ids, likeliest first */
  readonly order: readonly string[]
  readonly chance: (cause: string) => number
}

/** What the answers say of a tool of the kind, after the fixes that did not cure it. */
export async function beliefsIn(
  prepared: Prepared,
  kind: string,
  answers: Readonly<Record<string, Answer>>,
  fixesTried: readonly string[] = [],
): Promise<Beliefs> {
  const { causes } = await score(prepared, Situation.parse({ kind, answers, fixesTried }))
  return {
    order: causes.map(({ id }) => id),
    chance: (cause) => causes.find(({ id }) => id === cause)?.probability ?? 0,
  }
}

/** Assessments are the same for the same situation, and walks of rivals begin alike. */
const remembered = new WeakMap<Prepared, Map<string, Promise<Assessment>>>()

function assessed(prepared: Prepared, situation: Situation): Promise<Assessment> {
  const memo = remembered.get(prepared) ?? new Map<string, Promise<Assessment>>()
  remembered.set(prepared, memo)
  const key = JSON.stringify({ ...situation, answers: Object.entries(situation.answers).sort() })
  const known = memo.get(key) ?? assess(prepared, situation, bench)
  memo.set(key, known)
  return known
}

/** So often somebody looks further although an ending is offered. */
const mostFurther = 6

/** From the complaint alone, the danger signs looked for, until the flow ends or comes to the fix for the fault. */
export async function walk(prepared: Prepared, own: KindBook, fault: string, told: string): Promise<Walk> {
  const { book, kind } = own
  const events: CaseEvent[] = []
  const settled = new Map<string, number>()
  const course: (Step | Fix)[] = []
  const settle = (step: string, answers: Readonly<Record<string, Answer>>) => {
    events.push({ type: 'answered', step, answers, when: 'now' })
    for (const finding of book.findings)
      if (questionOf(finding)! in answers && !settled.has(finding.id))
        settled.set(finding.id, course.length - 1)
  }
  settle('complaint', own.answer(told, true))
  for (const step of book.steps.filter(({ form }) => form === 'danger'))
    settle(
      step.id,
      likeliestOf(
        own,
        fault,
        step.questions.map(({ id }) => id).filter((id) => id !== told),
      ),
    )

  let furtherLooks = mostFurther
  for (let turn = 0; turn < mostTurns; turn++) {
    const benchCase = { id: 'a', kind, tool: '', begunAt: '', changedAt: '', events }
    const end = await assessed(prepared, situationFrom(benchCase, prepared.knowledge))
    const { next } = end
    // An ending is offered: who wants to know what it is looks further, but not for ever.
    if (next.step === 'offer' && furtherLooks-- > 0) {
      events.push({ type: 'look-further', looks: 1 })
      continue
    }
    const fix = next.step === 'fix' ? book.fixes.find(({ id }) => id === next.id) : undefined
    const step =
      next.step === 'ask' || next.step === 'check' ? book.steps.find(({ id }) => id === next.id) : undefined
    const cure = fix && (fix.cures[fault] ?? 0) >= 0.5 ? fix : undefined
    if (fix) course.push(fix)
    if (cure || (!fix && !step)) return { kind, fault, told, course, settled, cure, end }
    if (fix) {
      const better = fix.outcome && own.likeliest(fix.outcome.id, fault) === 'yes'
      events.push({ type: 'tried', fix: fix.id, outcome: better ? 'better' : 'no' })
      if (fix.outcome) settled.set(fix.outcome.id, course.length - 1)
    } else if (step) {
      course.push(step)
      settle(step.id, likeliestOf(own, fault, next.questions))
    }
  }
  throw new Error(`no end after ${mostTurns} turns: ${course.map(({ id }) => id).join(' > ')}`)
}

const likeliestOf = (own: KindBook, fault: string, questions: readonly string[]) =>
  Object.fromEntries(questions.map((question) => [question, own.likeliest(question, fault)]))

/** For a test's message. */
export const nameOf = ({ kind, fault, told, course, end }: Walk): string =>
  `${kind}, ${fault} (${told}): ${course.map(({ id }) => id).join(' > ')} => ${end.next.step}, ` +
  end.causes
    .slice(0, 3)
    .map(({ id, probability }) => `${id} ${probability.toFixed(2)}`)
    .join(', ')
