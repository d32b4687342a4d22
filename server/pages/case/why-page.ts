import type { Assessment, CauseView, Weight } from '../../../shared/diagnosis.js'
import type { DotField } from '../layout/drawing.js'
import { dotField } from '../layout/drawing.js'
import type { Frame } from '../layout/frame.js'
import { caseFrame } from '../layout/frame.js'
import { lookupOf } from '../../../shared/rulebook-index.js'
import type { Reason } from './next-words.js'
import { reasonFor } from './next-words.js'
import type { OnBench } from '../../bench/on-bench.js'
import { sourceView } from '../layout/source-view.js'
import type { SourceView } from '../layout/source-view.js'
import { wearWords } from '../tools/wear-words.js'
import { answerWords, countOf100, inHundred, inThousand, strength } from '../layout/words.js'

/** Why the suspects stand where they stand, and why this step comes next. */
export interface WhyPage {
  readonly frame: Frame
  readonly next: { readonly name: string; readonly reason: Reason } | null
  readonly causes: readonly CauseWhy[]
  readonly more: readonly {
    readonly name: string
    readonly href: string
    readonly before: string
    readonly now: string
  }[]
  readonly exact: string
  readonly rules: readonly RuleGroup[]
  readonly waiting: readonly { readonly name: string; readonly because: string }[]
}

export interface CauseWhy {
  readonly name: string
  readonly href: string
  readonly before: string
  readonly now: string
  readonly alone: string
  readonly dots: DotField
  /** what its care says of this one; empty where that hardly moves it */
  readonly wear: string
  /** the weights worth telling, strongest first, those for it before those against */
  readonly weights: readonly WeightView[]
  /** what the other answers do, in one sentence */
  readonly rest: string
  readonly source: SourceView
}

interface WeightView {
  readonly statement: string
  readonly answer: string
  readonly strength: string
  readonly side: 'for' | 'against'
  readonly because: string
  readonly source: SourceView
}

interface RuleGroup {
  readonly heading: string
  readonly rules: readonly { readonly name: string; readonly because: string; readonly source: SourceView }[]
}

/** As many causes get their reasons in full, and as many get a line. */
const inFull = 4
const listed = 12

/** Below one deciban nobody would notice a difference. */
const leastDecibans = 1

/** @param before the assessment of a troubled tool of the kind about which nothing is said yet */
export function whyPage(on: OnBench, before: Assessment): WhyPage {
  const { knowledge, bench, assessment } = on
  const priors = new Map(before.causes.map(({ id, probability }) => [id, probability]))
  const ranked = [...assessment.causes].sort((a, b) => b.probability - a.probability)
  const nextName = nameOfNext(on)
  return {
    frame: caseFrame(knowledge, bench, 'Suspects and why', { at: '/why' }),
    next: nextName === null ? null : { name: nextName, reason: reasonFor(on) },
    causes: ranked.slice(0, inFull).map((cause) => causeWhy(on, cause, priors.get(cause.id) ?? 0)),
    more: ranked.slice(inFull, listed).map(({ id, name, probability }) => ({
      name,
      href: `/rulebook/causes/${id}`,
      before: inThousand(priors.get(id) ?? 0),
      now: inHundred(probability),
    })),
    exact: assessment.exact
      ? 'Every combination of faults was counted.'
      : 'So many faults are possible at once that the rarest combinations were left out; the counts may be off by a little.',
    rules: rulesOf(on),
    waiting: [
      ...[...assessment.hidden].map(([id, because]) => ({ name: statementOf(on, id), because })),
      ...[...assessment.barred].map(([id, because]) => ({ name: titleOf(on, id), because })),
    ],
  }
}

/** How one cause came to stand where it stands. `prior`: P(there) before anything was said. */
export function causeWhy(on: OnBench, cause: CauseView, prior: number): CauseWhy {
  const weights = (list: readonly Weight[], side: 'for' | 'against'): readonly WeightView[] =>
    list
      .filter(({ decibans }) => Math.abs(decibans) >= leastDecibans)
      .sort((a, b) => Math.abs(b.decibans) - Math.abs(a.decibans))
      .map((weight) => weightView(on, weight, side))
  const told = [...weights(cause.for, 'for'), ...weights(cause.against, 'against')]
  return {
    name: cause.name,
    href: `/rulebook/causes/${cause.id}`,
    before: inThousand(prior),
    now: inHundred(cause.probability),
    alone: inHundred(cause.sole),
    wear: wearWords(on.knowledge, on.known?.wear.filter((it) => it.cause === cause.id) ?? []).join(' '),
    dots: dotField(countOf100(cause.probability)),
    weights: told,
    rest: restWords(told.length, cause.for.length + cause.against.length - told.length),
    source: sourceView(on.knowledge, lookupOf(on.knowledge).causes.get(cause.id)?.source),
  }
}

function weightView(on: OnBench, weight: Weight, side: 'for' | 'against'): WeightView {
  const { findings, questions, questionOf } = lookupOf(on.knowledge)
  const finding = findings.get(weight.finding)
  const question = questionOf.get(weight.finding) ?? weight.finding
  const answer = on.situation.answers[question]
  const signed = side === 'for' ? Math.abs(weight.decibans) : -Math.abs(weight.decibans)
  const asked = questions.get(question)?.question
  const held = on.assessment.findings.get(weight.finding) === 'yes'
  const reading = typeof answer === 'number' ? ` (${answerWords(answer, asked?.unit)})` : ''
  return {
    statement: finding?.says ?? weight.finding,
    answer: `${held ? 'yes' : 'no'}${reading}`,
    strength: strength(signed),
    side,
    because: held ? (finding?.because ?? '') : becauseMissing(side),
    source: sourceView(on.knowledge, finding?.source),
  }
}

function restWords(told: number, left: number): string {
  if (left <= 0) return told === 0 ? 'No answer so far speaks for or against it.' : ''
  const answers = `${left} ${told === 0 ? '' : 'more '}${left === 1 ? 'answer' : 'answers'}`
  return `${answers} hardly ${left === 1 ? 'matters' : 'matter'} for it.`
}

/** A rule tells why its sign points to a cause; a missing sign is told in general. */
function becauseMissing(side: 'for' | 'against'): string {
  return side === 'against'
    ? 'It mostly shows this, and here it did not.'
    : 'Other suspects mostly show this, and here it did not.'
}

/** The rules that hold, group by group; a group in which none holds is left out. */
function rulesOf({ knowledge, assessment: { fired } }: OnBench): readonly RuleGroup[] {
  const held = <T extends { readonly id: string }>(rules: readonly T[], ids: readonly string[]): T[] =>
    rules.filter((rule) => ids.includes(rule.id))
  const ruleView = (name: string, because: string, source: string) => ({
    name,
    because,
    source: sourceView(knowledge, source),
  })
  return [
    {
      heading: 'What was found',
      rules: held(knowledge.findings, fired.findings).map((it) => ruleView(it.says, it.because, it.source)),
    },
    {
      heading: 'Danger signs',
      rules: held(knowledge.stops, fired.stops).map((it) => ruleView(it.name, it.why, it.source)),
    },
    {
      heading: 'What makes no sense to ask, or waits',
      rules: held(knowledge.relevance, fired.relevance).map((it) => ruleView(it.because, '', it.source)),
    },
    {
      heading: 'What is barred in this shop',
      rules: held(knowledge.policy, fired.policy).map((it) => ruleView(it.because, '', it.source)),
    },
  ].filter(({ rules }) => rules.length > 0)
}

export function nameOfNext({ knowledge, assessment }: OnBench): string | null {
  const { step, id, outlook } = assessment.next
  const { steps, fixes, stops } = lookupOf(knowledge)
  const ending = step === 'offer' ? outlook?.ending : step
  if (ending === 'send-in') return 'Send it in'
  if (ending === 'retire') return 'Retire it'
  if (id === null) return null
  return steps.get(id)?.title ?? fixes.get(id)?.name ?? stops.get(id)?.name ?? null
}

function statementOf({ knowledge }: OnBench, id: string): string {
  return lookupOf(knowledge).questions.get(id)?.question.statement ?? id
}

function titleOf({ knowledge }: OnBench, id: string): string {
  const { steps, fixes } = lookupOf(knowledge)
  return steps.get(id)?.title ?? fixes.get(id)?.name ?? id
}
