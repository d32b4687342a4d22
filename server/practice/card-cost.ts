/** What a card costs beside the full plan: the same simulated tools taken to the end by both. */
import { answerTable } from '../simulation/answers.js'
import { complaintOf, seeing } from '../simulation/complaint.js'
import type { DrawnTool } from '../simulation/tool.js'
import { drawTool } from '../simulation/tool.js'
import type { ShopSettings } from '../../shared/situation.js'
import type { PracticeMove } from '../../shared/practice.js'
import { serviceCost } from '../diagnosis/plan/build.js'
import { setupsOf } from '../diagnosis/policy.js'
import type { KindModel } from '../diagnosis/model.js'
import type { Prepared } from '../diagnosis/prepare.js'
import { kindOf } from '../diagnosis/prepare.js'
import type { Card, CardNode } from './card.js'
import { dangerQuestions } from './card-start.js'
import type { Desk, Standing } from './desk.js'
import { findingsAt, isMended, startOf } from './desk.js'
import { plansMove } from './model-player.js'
import { makeMove } from './moves.js'
import { worthOf } from './worth.js'

/** Money; the standard errors are of the means. */
export interface CardCost {
  readonly tools: number
  readonly card: number
  readonly full: number
  /** mean and standard error of card less full, tool by tool */
  readonly more: number
  readonly moreError: number
  /**
   * What the paper's moves lose by the plan's own reckoning, mean and standard error: each move is worth what it is in
   * expectation, so far fewer tools tell. Never below 0, and so rather too much than too little.
   */
  readonly lost: number
  readonly lostError: number
  /** share of tools that came to where the paper ends, or had a danger sign, in [0, 1] */
  readonly left: number
}

/** Moves that nobody needs. */
const mostMoves = 160

/**
 * Tools of a kind whose owner would say this first, the same ones each time.
 *
 * @param most tools drawn before giving up
 */
export function toolsTelling(
  { model, effectOfYes }: Parameters<typeof dangerQuestions>[0],
  complaint: string,
  count: number,
  most = 20_000,
): DrawnTool[] {
  const seen = seeing(model, effectOfYes)
  const tools: DrawnTool[] = []
  for (let n = 1; n <= most && tools.length < count; n++) {
    const tool = drawTool(model, n)
    if (firstComplaint(model, tool, seen) === complaint) tools.push(tool)
  }
  return tools
}

/** What is told first of what is seen, heard or felt; how it came about is no complaint. */
function firstComplaint(model: KindModel, tool: DrawnTool, seen: ReturnType<typeof seeing>) {
  const stories = new Set(
    model.steps.flatMap(({ questions }) =>
      questions.filter(({ sense }) => sense === 'story').map(({ id }) => id),
    ),
  )
  return complaintOf(model, tool, seen, Infinity).find((id) => !stories.has(id))
}

/** The commonest first complaints of a kind, commonest first, over so many drawn tools; what the danger step asks is none. */
export function commonestComplaints(
  kind: Parameters<typeof dangerQuestions>[0],
  count: number,
  tools = 1500,
): string[] {
  const { model } = kind
  const seen = seeing(model, kind.effectOfYes)
  const dangers = new Set(
    model.steps
      .filter(({ form }) => form === 'danger')
      .flatMap(({ questions }) => questions.map(({ id }) => id)),
  )
  const times = new Map<string, number>()
  for (let n = 1; n <= tools; n++) {
    const told = firstComplaint(model, drawTool(model, n), seen)
    if (told !== undefined && !dangers.has(told)) times.set(told, (times.get(told) ?? 0) + 1)
  }
  return [...times]
    .sort((a, b) => b[1] - a[1])
    .slice(0, count)
    .map(([id]) => id)
}

/**
 * Slow: the plan is made anew at every move of every tool, about a second for each on a desk computer.
 *
 * @param count tools, always the first ones whose owner would say this
 */
export async function cardCost(
  prepared: Prepared,
  card: Card,
  shop: ShopSettings,
  count: number,
): Promise<CardCost> {
  const kind = kindOf(prepared, card.kind)
  const table = await answerTable(kind.model)
  const seen = seeing(kind.model, kind.effectOfYes)
  const costs: { card: number; full: number; lost: number; left: boolean }[] = []
  for (const tool of toolsTelling(kind, card.complaint, count)) {
    const complaint = [card.complaint]
    const desk: Desk = { book: prepared, kind, wrongAnswers: 0, shop, tool, complaint, table, seen }
    const full = await costOf(desk, await byPlan(desk, startOf(desk)))
    const byCard = await byPaper(desk, card.root)
    costs.push({ full, card: await costOf(desk, byCard.now), lost: byCard.lost, left: byCard.left })
  }
  const mean = (values: readonly number[]) => values.reduce((sum, v) => sum + v, 0) / values.length
  const errorOf = (values: readonly number[]) => {
    const squares = values.reduce((sum, v) => sum + (v - mean(values)) ** 2, 0)
    return Math.sqrt(squares / Math.max(1, values.length - 1) / values.length)
  }
  const more = costs.map((it) => it.card - it.full)
  const lost = costs.map((it) => it.lost)
  return {
    tools: costs.length,
    card: mean(costs.map((it) => it.card)),
    full: mean(costs.map((it) => it.full)),
    more: mean(more),
    moreError: errorOf(more),
    lost: mean(lost),
    lostError: errorOf(lost),
    left: mean(costs.map((it) => Number(it.left))),
  }
}

async function byPlan(desk: Desk, from: Standing): Promise<Standing> {
  let now = from
  for (let k = 0; now.over === undefined && k < mostMoves; k++) {
    const { after, refused } = await makeMove(desk, now, await plansMove(desk, now))
    if (refused !== undefined) break
    now = after
  }
  return now
}

interface ByPaper {
  readonly now: Standing
  readonly lost: number
  readonly left: boolean
}

/** The danger signs first; with any of them, and where the paper ends, the guided flow takes over. */
async function byPaper(desk: Desk, root: CardNode): Promise<ByPaper> {
  const { model } = desk.kind
  let now = startOf(desk)
  let lost = 0
  const make = async (move: PracticeMove) => {
    const { loss } = await worthOf(desk, now, move)
    const { after, refused } = await makeMove(desk, now, move)
    if (refused === undefined) lost += loss
    now = after
  }
  /** The set-ups of a step or fix as moves of their own, innermost last, so that nothing is opened live. */
  const stand = async (id: string) => {
    const action = [...model.steps, ...model.fixes].find((it) => it.id === id)!
    for (const setup of setupsOf(model, action.setups))
      if (!now.situation.standing.includes(setup.id)) await make({ type: 'stood', setup: setup.id })
  }
  const guided = async (): Promise<ByPaper> => ({ now: await byPlan(desk, now), lost, left: true })

  for (const step of model.steps)
    if (step.form === 'danger') {
      await stand(step.id)
      await make({ type: 'looked', step: step.id })
    }
  const dangers = [...dangerQuestions(desk.kind)].filter((id) => !desk.complaint.includes(id))
  if (dangers.some((id) => now.situation.answers[id] === 'yes')) return guided()
  for (let node = root; ;) {
    if (isMended(now)) return { now: await byPlan(desk, now), lost, left: false }
    if (node.is === 'cut') return guided()
    if (node.is === 'end') {
      await make({ type: 'ended', way: node.way })
      return { now, lost, left: false }
    }
    if (node.is === 'fix') {
      await stand(node.fix)
      await make({ type: 'tried', fix: node.fix })
      node = node.next
      continue
    }
    const { finding, step, question } = node
    const { answers, answeredAfter, fixesTried } = now.situation
    const isFresh = answers[question] !== undefined && (answeredAfter[question] ?? 0) === fixesTried.length
    if (!isFresh) {
      await stand(step)
      await make({ type: 'looked', step })
    }
    const { states, stops } = await findingsAt(desk, now.situation)
    if (stops.some(({ grade }) => grade === 'set-aside')) {
      await make({ type: 'ended', way: 'set-aside' })
      return { now, lost, left: false }
    }
    node = states.get(finding) === 'yes' ? node.yes : node.no
  }
}

/** Hands, parts, and what the end costs for this very tool; money. */
async function costOf(desk: Desk, { minutes, parts, over, causes, situation }: Standing): Promise<number> {
  const { kind, shop } = desk
  const spent = minutes * shop.rate + parts
  const retires = causes.some((c) => kind.model.causes[c]!.service === 'retire')
  if (over === 'send-in') return spent + serviceCost(shop) + (retires ? shop.replace : 0)
  if (over === 'set-aside') {
    const { stops } = await findingsAt(desk, situation)
    const isStopped = stops.some(({ grade }) => grade === 'set-aside')
    return spent + (isStopped ? Math.min(serviceCost(shop), shop.replace) : shop.replace)
  }
  return spent
}
