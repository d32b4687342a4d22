/**
 * The plan on paper: for a kind and a complaint the best flow as a tree of at most so many questions, for a bench
 * without a screen. The steps are the plan's own, but on paper an answer is yes or no, so of all that a step tells the
 * card asks only what changes what is done next. Branches that are walked most often are drawn first, and where the
 * paper ends it says so.
 */
import type { ShopSettings } from '../../shared/situation.js'
import type { PreparedKind } from '../diagnosis/prepare.js'
import { reach } from '../diagnosis/plan.js'
import { waysToEnd } from '../diagnosis/plan/build.js'
import type { Action } from '../diagnosis/plan/look-ahead.js'
import { rankActions } from '../diagnosis/plan/look-ahead.js'
import { knownCost } from '../diagnosis/plan/fix-order.js'
import { fixOutcomes, outcomesOf } from '../diagnosis/plan/outcomes.js'
import type { PlanProblem, PlanState, PlanStep } from '../diagnosis/plan/problem.js'
import { isOpen } from '../diagnosis/plan/problem.js'
import { cardStart } from './card-start.js'

export type CardNode =
  | {
      readonly is: 'question'
      /** place in the order of drawing, from 1: what the paper calls it */
      readonly number: number
      readonly step: string
      readonly question: string
      /** the finding whose statement is answered yes or no */
      readonly finding: string
      readonly yes: CardNode
      readonly no: CardNode
    }
  /** gone: done; else go on */
  | { readonly is: 'fix'; readonly fix: string; readonly next: CardNode }
  | { readonly is: 'end'; readonly way: 'send-in' | 'set-aside' }
  /** the paper ends: otherwise use the guided flow */
  | { readonly is: 'cut' }

export interface Card {
  readonly kind: string
  readonly complaint: string
  readonly root: CardNode
  readonly questions: number
  /** share of tools that come to where the paper ends, by the plan's own reckoning, in [0, 1] */
  readonly cut: number
}

/** Fits an A5 sheet. */
export const questionsOnCard = 20
/** Repairs drawn, so that a card does not become a list of repairs. */
const fixesOnCard = 24
/** A branch walked by fewer tools than this is not drawn. */
const leastWalked = 0.004

/**
 * A repair whose expected cost is at most this share above the best question's is drawn instead of it: while
 * there is room for questions, and once there is none. Beyond, the guided flow is the better advice.
 */
const nearEnough = { withRoom: 0.01, without: 0.05 }

/**
 * A card knows less than the guided flow, and gives up sooner. It says "send it in" only where that would be right for
 * at least this share of what may be wrong; else the guided flow has a look first.
 */
const leastHopeless = 0.7

/** A branch still to be drawn. */
interface Branch {
  readonly state: PlanState
  readonly probability: number
  /** checks that the hand is at: their other questions cost no more time */
  readonly inHand: ReadonlySet<number>
  readonly put: (node: CardNode) => void
}

/**
 * @param complaint id of a question of the complaint page, answered yes
 * @throws RangeError for a complaint that the kind does not have
 */
export async function compileCard(
  kind: PreparedKind,
  complaint: string,
  shop: ShopSettings,
  most = questionsOnCard,
): Promise<Card> {
  const { model } = kind
  const { problem, state } = await cardStart(kind, complaint, shop)
  const waiting: Branch[] = []
  const drawn = { questions: 0, fixes: 0, cut: 0 }
  const top: { root: CardNode } = { root: { is: 'cut' } }
  waiting.push({ state, probability: 1, inHand: new Set(), put: (node) => (top.root = node) })
  for (;;) {
    waiting.sort((a, b) => a.probability - b.probability)
    const branch = waiting.pop()
    if (!branch) break
    draw(branch)
  }
  return { kind: model.kind.id, complaint, root: top.root, questions: drawn.questions, cut: drawn.cut }

  function draw({ state, probability, inHand, put }: Branch): void {
    const cut = () => {
      drawn.cut += probability
      put({ is: 'cut' })
    }
    if (probability < leastWalked) return cut()
    const choice = onPaper(problem, state, inHand, drawn.questions < most)
    if (!choice) return cut()
    if (choice.kind === 'end')
      return put({ is: 'end', way: waysToEnd[choice.index] === 'send-in' ? 'send-in' : 'set-aside' })
    if (choice.kind === 'fix') {
      if (drawn.fixes >= fixesOnCard) return cut()
      drawn.fixes++
      const [next] = fixOutcomes(problem, state, choice.index)
      const node = { is: 'fix' as const, fix: model.fixes[choice.index]!.id, next: { is: 'cut' } as CardNode }
      put(node)
      if (next?.state)
        waiting.push({
          state: next.state,
          probability: probability * next.probability,
          inHand: new Set(),
          put: (it) => (node.next = it),
        })
      return
    }
    drawn.questions++
    const { step, finding } = choice
    const node = {
      is: 'question' as const,
      number: drawn.questions,
      step: model.steps[step]!.id,
      question: model.questionOf[finding]!,
      finding: model.findings[finding]!.id,
      yes: { is: 'cut' } as CardNode,
      no: { is: 'cut' } as CardNode,
    }
    put(node)
    const outcomes = outcomesOf(problem, state, single(problem, step, finding), Infinity)
    // split by truth: the first is yes, the second no; one alone where the other cannot be
    outcomes.forEach((outcome, k) => {
      const side = k === 0 && outcomes.length > 1 ? 'yes' : 'no'
      if (!outcome.state) {
        node[side] = { is: 'end', way: 'set-aside' }
        return
      }
      waiting.push({
        state: outcome.state,
        probability: probability * outcome.probability,
        inHand: new Set([...inHand, step]),
        put: (it) => (node[side] = it),
      })
    })
  }
}

/** A step as a whole, or one question of a step that the hand is at. */
interface Ask {
  readonly plan: PlanStep
  readonly step: number
  readonly finding: number | undefined
}

type Choice =
  | { readonly kind: 'fix'; readonly index: number }
  | { readonly kind: 'end'; readonly index: number }
  | { readonly kind: 'question'; readonly step: number; readonly finding: number }

/** One question of a step that is looked at anyway: it takes no more time. */
const single = (problem: PlanProblem, step: number, finding: number): PlanStep => ({
  ...problem.steps[step]!,
  findings: [finding],
  cost: 0,
})

/** What is drawn next; undefined where only a question would be good enough and there is no room for one. */
function onPaper(
  problem: PlanProblem,
  state: PlanState,
  inHand: ReadonlySet<number>,
  hasRoom: boolean,
): Choice | undefined {
  const open = problem.steps.flatMap((plan, step) => (isOpen(state, plan) ? [{ plan, step }] : []))
  const asks = open.flatMap(({ plan, step }): Ask[] =>
    inHand.has(step)
      ? plan.findings
          .filter((finding) => !state.settled[finding])
          .map((finding) => ({ plan: single(problem, step, finding), step, finding }))
      : [{ plan, step, finding: undefined }],
  )
  const actions = rankActions({ ...problem, steps: asks.map(({ plan }) => plan) }, state, reach)
  const best = actions[0]!
  const within = (share: number) => (it: Action) => it.value <= best.value * (1 + share)
  const fix = actions
    .filter(({ kind }) => kind === 'fix')
    .find(within(hasRoom ? nearEnough.withRoom : nearEnough.without))
  if (fix) return { kind: 'fix', index: fix.index }
  if (best.kind === 'end')
    return hopeless(problem, state) >= leastHopeless ? { kind: 'end', index: best.index } : undefined
  if (!hasRoom) return undefined
  // a question that takes no time takes room: one more step of the plan is drawn rather than it, if as good
  const fresh = actions
    .filter(({ kind, index }) => kind === 'step' && asks[index]!.finding === undefined)
    .find(within(nearEnough.withRoom))
  const { step, finding } = asks[(fresh ?? best).index]!
  return { kind: 'question', step, finding: finding ?? mostTelling(problem, state, step) }
}

/** Share of what may be wrong, in [0, 1], that nobody at this bench would mend even if it were known. */
function hopeless(problem: PlanProblem, state: PlanState): number {
  let share = 0
  state.weights.forEach((w, h) => w > 0 && knownCost(problem, state, h).plan === 'end' && (share += w))
  return share
}

/** Of a step's open findings the one to ask first, were the others not asked at all. */
function mostTelling(problem: PlanProblem, state: PlanState, step: number): number {
  const findings = problem.steps[step]!.findings.filter((finding) => !state.settled[finding])
  const steps = findings.map((finding) => single(problem, step, finding))
  const best = rankActions({ ...problem, steps }, state, reach).find(({ kind }) => kind === 'step')
  return findings[best?.index ?? 0]!
}
