/**
 * The plan on paper: for a kind and a complaint the best flow as a tree of at most so many questions, for a bench
 * without a screen. The steps are the plan's own, but on paper an answer is yes or no, so of all that a step tells the
 * card asks only what changes what is done next. Branches that most tools walk are drawn first.
 *
 * Where the questions run out, the next repairs, or the end, are drawn still. That costs more than to go on asking;
 * how much more, the plan reckons. A card may lose only so much by it: it is spent where it brings most tools to an
 * end, and elsewhere the paper stops and says "otherwise use the guided flow", which loses nothing.
 */
import type { ShopSettings } from '../../shared/situation.js'
import { reach } from '../diagnosis/plan/reach.js'
import { waysToEnd } from '../diagnosis/plan/build.js'
import { rankActions } from '../diagnosis/plan/look-ahead.js'
import { fixOutcomes, outcomesOf } from '../diagnosis/plan/outcomes.js'
import type { PlanState } from '../diagnosis/plan/problem.js'
import { endNow } from '../diagnosis/plan/problem.js'
import type { PreparedKind } from '../diagnosis/prepare.js'
import type { Rung } from './card-choice.js'
import { bestRung, onPaper, single } from './card-choice.js'
import { cardStart } from './card-start.js'
import type { Pause } from './score.js'
import { noPause } from './score.js'

export type CardNode =
  | {
      readonly is: 'question'
      /** place in the order of reading, from 1: what the paper calls it */
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
  /** what the full plan expects to pay once the complaint is told and no danger found; money */
  readonly expected: number
}

/**
 * Fits an A5 sheet, both sides, with the repairs. More would fit by half a dozen, but the deeper a question stands,
 * the more it leaves out of what was seen on the way, and the more it loses against the guided flow.
 */
export const questionsOnCard = 16
/** Repairs one after another without a question between: more is no longer finding a fault. */
const fixesInARow = 4
/** A branch walked by fewer tools than this is not drawn. */
const leastWalked = 0.004
/**
 * What a card may lose where it stops asking, by the plan's own reckoning, as a share of what the plan expects to
 * pay. The mark is 5 in 100; the rest is left for what paper does not know of the answers on the way.
 */
const mayLose = 0.03

/** A place that is still blank. */
interface Blank {
  readonly state: PlanState
  /** share of tools that come here */
  readonly probability: number
  /** checks that the hand is at: their other questions cost no more time */
  readonly inHand: ReadonlySet<number>
  /** repairs since the last question */
  readonly row: number
  readonly put: (node: CardNode) => void
}

/**
 * @param complaint id of a question of the complaint page, answered yes
 * @param pause     called before each line: to choose one takes some tens of milliseconds
 * @throws RangeError for a complaint that the kind does not have
 */
export async function compileCard(
  kind: PreparedKind,
  complaint: string,
  shop: ShopSettings,
  most = questionsOnCard,
  pause: Pause = noPause,
): Promise<Card> {
  const { model } = kind
  const { problem, state } = await cardStart(kind, complaint, shop)
  const expected = rankActions(problem, state, reach)[0]!.value
  const blanks = new Set<Blank>()
  let asked = 0
  let cut = 0
  let root: CardNode = { is: 'cut' }
  blanks.add({ state, probability: 1, inHand: new Set(), row: 0, put: (node) => (root = node) })
  while (asked < most && blanks.size > 0) {
    await pause()
    draw([...blanks].reduce((likeliest, it) => (it.probability > likeliest.probability ? it : likeliest)))
  }
  await drawRungs()
  for (const it of blanks) cut += it.probability
  const tree = numbered(root)
  return { kind: model.kind.id, complaint, root: tree, questions: countOf(tree), cut, expected }

  function draw(it: Blank): void {
    const choice = it.probability < leastWalked ? undefined : onPaper(problem, it.state, it.inHand)
    if (choice?.kind === 'question') return ask(it, choice.step, choice.finding)
    if (choice?.kind === 'end') return end(it)
    if (choice?.kind === 'fix' && it.row < fixesInARow) return mend(it, choice.index)
    blanks.delete(it)
    cut += it.probability
  }

  function ask(it: Blank, step: number, finding: number): void {
    blanks.delete(it)
    asked++
    const node = {
      is: 'question' as const,
      number: 0,
      step: model.steps[step]!.id,
      question: model.questionOf[finding]!,
      finding: model.findings[finding]!.id,
      yes: { is: 'cut' } as CardNode,
      no: { is: 'cut' } as CardNode,
    }
    it.put(node)
    const outcomes = outcomesOf(problem, it.state, single(problem, step, finding), Infinity)
    // split by truth: the first is yes, the second no; one alone where the other cannot be
    outcomes.forEach(({ state, probability }, k) => {
      const side = k === 0 && outcomes.length > 1 ? 'yes' : 'no'
      if (state)
        blanks.add({
          state,
          probability: it.probability * probability,
          inHand: new Set([...it.inHand, step]),
          row: 0,
          put: (next) => (node[side] = next),
        })
      else node[side] = { is: 'end', way: 'set-aside' }
    })
  }

  function mend(it: Blank, fix: number): void {
    blanks.delete(it)
    const node = { is: 'fix' as const, fix: model.fixes[fix]!.id, next: { is: 'cut' } as CardNode }
    it.put(node)
    const [rest] = fixOutcomes(problem, it.state, fix)
    if (rest?.state)
      blanks.add({
        state: rest.state,
        probability: it.probability * rest.probability,
        inHand: new Set(),
        row: it.row + 1,
        put: (next) => (node.next = next),
      })
  }

  function end(it: Blank): void {
    blanks.delete(it)
    const way = waysToEnd[endNow(problem, it.state.weights).end]
    it.put({ is: 'end', way: way === 'send-in' ? 'send-in' : 'set-aside' })
  }

  /** Lines without a question, those first that bring most tools to an end for what they lose, while it is not too much. */
  async function drawRungs(): Promise<void> {
    let left = mayLose * expected
    const rungs = new Map<Blank, Rung>()
    for (;;) {
      await pause()
      let best: { readonly it: Blank; readonly rung: Rung } | undefined
      for (const it of blanks) {
        const rung = rungs.get(it) ?? bestRung(problem, it.state, it.row < fixesInARow)
        rungs.set(it, rung)
        const fits = it.probability >= leastWalked && it.probability * rung.loses <= left
        if (fits && (!best || rung.ends / rung.loses > best.rung.ends / best.rung.loses)) best = { it, rung }
      }
      if (!best) return
      left -= best.it.probability * best.rung.loses
      if (best.rung.fix === undefined) end(best.it)
      else mend(best.it, best.rung.fix)
    }
  }
}

/** The tree without questions that change nothing, numbered as it is read: what a yes leads to, then the no. */
function numbered(root: CardNode): CardNode {
  let last = 0
  const along = (node: CardNode): CardNode => {
    if (node.is === 'fix') return { ...node, next: along(node.next) }
    if (node.is !== 'question') return node
    const number = ++last
    const yes = along(node.yes)
    const no = along(node.no)
    // numbers differ where a question follows, so what is the same holds none
    if (JSON.stringify(yes) !== JSON.stringify(no)) return { ...node, number, yes, no }
    last = number - 1
    return yes
  }
  return along(root)
}

const countOf = (node: CardNode): number =>
  node.is === 'fix'
    ? countOf(node.next)
    : node.is === 'question'
      ? 1 + countOf(node.yes) + countOf(node.no)
      : 0
