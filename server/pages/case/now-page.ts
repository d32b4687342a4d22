import type { Question } from '../../../shared/knowledge.js'
import { comparisonsOf } from '../../../shared/conditions.js'
import type { ItemView, Problem, Sent } from '../../forms/answer-form.js'
import { itemView } from '../../forms/answer-form.js'
import { tellable } from '../../statements/statements.js'
import type { Frame } from '../layout/frame.js'
import { caseFrame } from '../layout/frame.js'
import { lookupOf } from '../../../shared/rulebook-index.js'
import type { OnBench } from '../../bench/on-bench.js'

/** After a fix that did not cure it, or when trouble came back: what does it do now? */
export interface NowPage {
  readonly frame: Frame
  readonly action: string
  readonly seen: number
  readonly lead: string
  /** what it did before: ticked if it still does */
  readonly before: readonly ItemView[]
  readonly others: readonly ItemView[]
  readonly newTicked: boolean
  readonly problems: readonly Problem[]
}

/** What it does now. What is not chosen stays as it was told before. */
export function nowPage(on: OnBench, sent: Sent | null = null, problems: readonly Problem[] = []): NowPage {
  const { knowledge, bench } = on
  const { before, others } = nowQuestions(on)
  const last = bench.events.findLast((event) => event.type === 'tried' || event.type === 'reopened')
  const fix = last?.type === 'tried' ? lookupOf(knowledge).fixes.get(last.fix) : undefined
  const news = others.map((question) => itemView(question, undefined, sent, problems))
  return {
    frame: caseFrame(knowledge, bench, 'What does it do now?', { at: '', error: problems.length > 0 }),
    action: `/cases/${bench.id}/now`,
    seen: bench.events.length,
    lead:
      fix === undefined
        ? ''
        : last?.type === 'tried' && last.outcome === 'better'
          ? `“${fix.name}” made it better, not right.`
          : `“${fix.name}” changed nothing.`,
    before: before.map((question) => itemView(question, undefined, sent, problems)),
    others: news,
    newTicked: news.some(({ ticked }) => ticked),
    problems,
  }
}

/**
 * The questions of the page. First what decides whether the tool can be run at all, because everything
 * that shows only on a running tool hangs on it.
 */
export function nowQuestions(on: OnBench): {
  readonly before: readonly Question[]
  readonly others: readonly Question[]
} {
  const { knowledge, bench, situation } = on
  const { questionOf, findingsOf } = lookupOf(knowledge)
  const decidesRunning = new Set(
    knowledge.relevance
      .filter((rule) => rule.hides.running)
      .flatMap((rule) => comparisonsOf(rule.when))
      .map(({ fact }) => questionOf.get(fact) ?? fact),
  )
  const rank = (question: Question): number => (decidesRunning.has(question.id) ? 0 : 1)
  // Most of the story is past and stays so: "it began after a drop". What shows on a running tool can change.
  const canChange = ({ id, sense }: Question): boolean =>
    sense !== 'story' ||
    decidesRunning.has(id) ||
    (findingsOf.get(id) ?? []).some((finding) => finding.running)
  const all = tellable(knowledge, bench.kind).filter(canChange)
  return {
    before: all.filter(({ id }) => situation.answers[id] === 'yes').sort((a, b) => rank(a) - rank(b)),
    others: all.filter(({ id }) => situation.answers[id] !== 'yes'),
  }
}
