/** What a card costs beside the full plan: the same simulated tools taken to the end by both. */
import { answerTable } from '../simulation/answers.js'
import { complaintOf, seeing } from '../simulation/complaint.js'
import type { DrawnTool } from '../simulation/tool.js'
import { drawTool } from '../simulation/tool.js'
import type { ShopSettings } from '../../shared/situation.js'
import type { PracticeMove } from '../../shared/practice.js'
import { serviceCost } from '../diagnosis/plan/build.js'
import type { KindModel } from '../diagnosis/model.js'
import type { Prepared } from '../diagnosis/prepare.js'
import { kindOf } from '../diagnosis/prepare.js'
import type { Card, CardNode } from './card.js'
import { dangerQuestions } from './card-start.js'
import type { Desk, Standing } from './desk.js'
import { findingsAt, isMended, startOf } from './desk.js'
import { plansMove } from './model-player.js'
import { makeMove } from './moves.js'

/** Money; the standard errors are of the means. */
export interface CardCost {
  readonly tools: number
  readonly card: number
  readonly full: number
  /** mean and standard error of card less full, tool by tool */
  readonly more: number
  readonly moreError: number
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

/** The commonest first complaints of a kind, commonest first, over so many drawn tools. */
export function commonestComplaints(
  kind: Parameters<typeof dangerQuestions>[0],
  count: number,
  tools = 1500,
): string[] {
  const { model } = kind
  const seen = seeing(model, kind.effectOfYes)
  const dangers = dangerQuestions(kind)
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

export async function cardCost(
  prepared: Prepared,
  card: Card,
  shop: ShopSettings,
  count: number,
): Promise<CardCost> {
  const kind = kindOf(prepared, card.kind)
  const table = await answerTable(kind.model)
  const seen = seeing(kind.model, kind.effectOfYes)
  const costs: { card: number; full: number; left: boolean }[] = []
  for (const tool of toolsTelling(kind, card.complaint, count)) {
    const complaint = [card.complaint]
    const desk: Desk = { book: prepared, kind, wrongAnswers: 0, shop, tool, complaint, table, seen }
    const full = await costOf(desk, await byPlan(desk, startOf(desk)))
    const byCard = await byPaper(desk, card.root)
    costs.push({ full, card: await costOf(desk, byCard.now), left: byCard.left })
  }
  const mean = (values: readonly number[]) => values.reduce((sum, v) => sum + v, 0) / values.length
  const more = costs.map((it) => it.card - it.full)
  const spread = more.reduce((sum, v) => sum + (v - mean(more)) ** 2, 0)
  return {
    tools: costs.length,
    card: mean(costs.map((it) => it.card)),
    full: mean(costs.map((it) => it.full)),
    more: mean(more),
    moreError: Math.sqrt(spread / Math.max(1, costs.length - 1) / costs.length),
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

/** The danger signs first; with any of them, and where the paper ends, the guided flow takes over. */
async function byPaper(desk: Desk, root: CardNode): Promise<{ now: Standing; left: boolean }> {
  const { model } = desk.kind
  const make = async (standing: Standing, move: PracticeMove) => (await makeMove(desk, standing, move)).after
  let now = startOf(desk)
  for (const step of model.steps)
    if (step.form === 'danger') {
      for (const setup of step.setups) now = await make(now, { type: 'stood', setup })
      now = await make(now, { type: 'looked', step: step.id })
    }
  const dangers = dangerQuestions(desk.kind)
  const hasDanger = [...dangers].some(
    (id) => now.situation.answers[id] === 'yes' && !desk.complaint.includes(id),
  )
  if (hasDanger) return { now: await byPlan(desk, now), left: true }
  for (let node = root; ;) {
    if (isMended(now)) return { now: await byPlan(desk, now), left: false }
    if (node.is === 'cut') return { now: await byPlan(desk, now), left: true }
    if (node.is === 'end') return { now: await make(now, { type: 'ended', way: node.way }), left: false }
    if (node.is === 'fix') {
      now = await make(await stoodFor(desk, now, node.fix), { type: 'tried', fix: node.fix })
      node = node.next
      continue
    }
    const { finding, step, question } = node
    const { answers, answeredAfter, fixesTried } = now.situation
    const isFresh = answers[question] !== undefined && (answeredAfter[question] ?? 0) === fixesTried.length
    if (!isFresh) {
      const isCheck = model.steps.find(({ id }) => id === step)!.form === 'check'
      now = await make(await stoodFor(desk, now, step), {
        type: 'looked',
        step,
        ...(isCheck ? {} : { question }),
      })
    }
    const { states, stops } = await findingsAt(desk, now.situation)
    if (stops.some(({ grade }) => grade === 'set-aside'))
      return { now: await make(now, { type: 'ended', way: 'set-aside' }), left: false }
    node = states.get(finding) === 'yes' ? node.yes : node.no
  }
}

/** The set-ups of a step or fix as moves of their own, so that nothing is opened live. */
async function stoodFor(desk: Desk, standing: Standing, id: string): Promise<Standing> {
  const { steps, fixes } = desk.kind.model
  const action = [...steps, ...fixes].find((it) => it.id === id)!
  let now = standing
  for (const setup of action.setups)
    if (!now.situation.standing.includes(setup)) {
      for (const need of desk.kind.model.setups.find((it) => it.id === setup)?.needs ?? [])
        if (!now.situation.standing.includes(need))
          now = (await makeMove(desk, now, { type: 'stood', setup: need })).after
      now = (await makeMove(desk, now, { type: 'stood', setup })).after
    }
  return now
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
