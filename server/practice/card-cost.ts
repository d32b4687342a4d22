/** What a card costs beside the full plan: the same simulated tools taken to the end by both. */
import { answerTable } from '../simulation/answers.js'
import { seeing } from '../simulation/complaint.js'
import type { ShopSettings, Situation } from '../../shared/situation.js'
import type { PracticeMove } from '../../shared/practice.js'
import { serviceCost } from '../diagnosis/plan/build.js'
import type { Prepared } from '../diagnosis/prepare.js'
import { kindOf } from '../diagnosis/prepare.js'
import type { Card, CardNode } from './card.js'
import { dangerQuestions } from './card-start.js'
import { toolsTelling } from './card-tools.js'
import type { Desk, BenchState } from './desk.js'
import { findingsAt, isMended, startOf } from './desk.js'
import { plansMove } from './model-player.js'
import { makeMove } from './moves.js'
import { worthOf } from './worth.js'
import { onceForEach } from '../../shared/once-for.js'
import { setupsNeeded } from '../../shared/setups-needed.js'

/** What one tool cost by card and by the full plan. */
export interface ToolCost {
  readonly card: Spent
  readonly full: Spent
  /**
   * Money that the paper's moves lose by the plan's own reckoning: each move is worth what it is in expectation, so
   * far fewer tools tell. Never below 0, and so rather too much than too little.
   */
  readonly lost: number
  /** came to where the paper ends, or had a danger sign */
  readonly left: boolean
}

/** Minutes of a hand, and money altogether: hands, parts, and what the end costs for this very tool. */
interface Spent {
  readonly minutes: number
  readonly money: number
}

/** First number of the tools on which cards are measured; those below were looked at while the cards were made. */
const measuredFrom = 1_000_001

/** Moves that nobody needs. */
const mostMoves = 160

/**
 * Slow: the plan is made anew at every move of every tool, about a second for each on a desk computer.
 *
 * @param count tools, the first ones from a number on whose owner would say this
 */
export async function cardCosts(
  prepared: Prepared,
  card: Card,
  shop: ShopSettings,
  count: number,
  from = measuredFrom,
): Promise<ToolCost[]> {
  const kind = kindOf(prepared, card.kind)
  const table = await answerTable(kind.model)
  const seen = seeing(kind.model, kind.effectOfYes)
  const costs: ToolCost[] = []
  for (const tool of toolsTelling(kind, card.complaint, count, from)) {
    const complaint = [card.complaint]
    const desk: Desk = {
      book: prepared,
      kind,
      wrongAnswers: 0,
      shop,
      tool,
      complaint,
      heard: [],
      table,
      seen,
    }
    const full = await spentOn(desk, await byPlan(desk, begun(desk)))
    const { now, lost, left } = await byPaper(desk, card.root)
    costs.push({ full, card: await spentOn(desk, now), lost, left })
  }
  return costs
}

const same = onceForEach<Desk['table'], Situation>()

/**
 * A move made; situations that hold the same are the same object, so that what was worked out for one tool is there
 * for the next: most tools begin alike.
 */
async function moved(desk: Desk, now: BenchState, move: PracticeMove) {
  const { after, refused } = await makeMove(desk, now, move)
  return { after: { ...after, situation: sameAs(desk, after.situation) }, refused }
}

const begun = (desk: Desk): BenchState => {
  const start = startOf(desk)
  return { ...start, situation: sameAs(desk, start.situation) }
}

const sameAs = ({ table }: Desk, situation: Situation): Situation =>
  same(table, JSON.stringify(situation), () => situation)

async function byPlan(desk: Desk, from: BenchState): Promise<BenchState> {
  let now = from
  for (let k = 0; now.over === undefined && k < mostMoves; k++) {
    const { after, refused } = await moved(desk, now, await plansMove(desk, now))
    if (refused !== undefined) break
    now = after
  }
  return now
}

interface ByPaper {
  readonly now: BenchState
  readonly lost: number
  readonly left: boolean
}

/** The danger signs first; with any of them, and where the paper ends, the guided flow takes over. */
async function byPaper(desk: Desk, root: CardNode): Promise<ByPaper> {
  const { model } = desk.kind
  let now = begun(desk)
  let lost = 0
  const make = async (move: PracticeMove) => {
    const { after, refused } = await moved(desk, now, move)
    if (refused === undefined) lost += (await worthOf(desk, now, move, after.situation)).loss
    now = after
  }
  /** The set-ups of a step or fix as moves of their own, innermost last, so that nothing is opened live. */
  const stand = async (id: string) => {
    const action = [...model.steps, ...model.fixes].find((it) => it.id === id)!
    for (const setup of setupsNeeded(model.setups, action.setups))
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

async function spentOn(desk: Desk, { minutes, parts, over, causes, situation }: BenchState): Promise<Spent> {
  const { kind, shop } = desk
  const spent = minutes * shop.rate + parts
  const retires = causes.some((c) => kind.model.causes[c]!.service === 'retire')
  let end = 0
  if (over === 'send-in') end = serviceCost(shop) + (retires ? shop.replace : 0)
  if (over === 'set-aside') {
    const { stops } = await findingsAt(desk, situation)
    const isStopped = stops.some(({ grade }) => grade === 'set-aside')
    end = isStopped ? Math.min(serviceCost(shop), shop.replace) : shop.replace
  }
  return { minutes, money: spent + end }
}
