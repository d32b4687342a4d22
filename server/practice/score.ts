/**
 * The score of an exercise, by expectation:
 *
 *     score = 100 · span / (span + 1.5 · losses) · 0.75 ^ (safety mistakes that were only noted)
 *
 * `losses` is the sum of what each move lost against the plan in the situation in which it was made (worth.ts says why
 * luck has no part in it). `span` is what sending the tool in unlooked-at would have lost: so the plan's moves have 100
 * and sending in at once has 40, at every level, and whoever loses more than that has less. Where sending in at once
 * is nearly as good as the plan, ten minutes stand in for it. A safety mistake that ends the exercise leaves 0: what a
 * hand is worth is not weighed against minutes. What each way of playing deserves was written first
 * (tests/practice/score-table/table.json: common practice, no source).
 */
import type { PracticeMove } from '../../shared/practice.js'
import type { Worth } from './plan-at.js'
import { expectedFrom, planAt } from './plan-at.js'
import type { Played } from './played.js'
import { worthOf } from './worth.js'

export interface Score {
  /** 0 to 100; undefined while the exercise goes on */
  readonly score: number | undefined
  /** what the plan expects to pay from the complaint on; money, above 0 */
  readonly plan: number
  /** by move: what it was worth; undefined for one that was refused or ended the exercise by a slip */
  readonly worths: readonly (Worth | undefined)[]
  /** their sum; money */
  readonly losses: number
}

/** How much heavier a loss weighs than the span: sending in at once then comes to 40. */
const lossWeighs = 1.5
/** What is left of a score after a safety mistake that was only noted: a quarter is gone. */
const afterNoted = 0.75
/** Minutes that the span has at least. */
const leastSpan = 10

/**
 * @param span   above 0, money; @param losses at least 0, money
 * @param noted  safety mistakes that did not end the exercise
 * @returns 0 to 100
 */
export const scoreFrom = (span: number, losses: number, noted = 0): number =>
  100 * (span / (span + lossWeighs * losses)) * afterNoted ** noted

/** Lets whoever has other work through, between two moves. */
export type Pause = () => Promise<void>
export const noPause: Pause = () => Promise.resolve()

/**
 * Works out each move's loss; the slow part of a debrief, so ask for it when somebody looks.
 *
 * @param pause called before each move: working one out takes some tens of milliseconds and lets nothing else through
 */
export async function scoreOf({ desk, start, done, now }: Played, pause: Pause = noPause): Promise<Score> {
  const plan = expectedFrom(desk, await planAt(desk, start.situation))
  const worths: (Worth | undefined)[] = []
  for (const { before, after, move, refused, slips } of done) {
    await pause()
    const made = refused === undefined && !slips.some(({ grade }) => grade === 'ends')
    worths.push(made ? await worthOf(desk, before, move, after.situation) : undefined)
  }
  const losses = worths.reduce((sum, worth) => sum + (worth?.loss ?? 0), 0)
  const unlooked = await worthOf(desk, start, { type: 'ended', way: 'send-in' })
  const span = Math.max(unlooked.loss, leastSpan * desk.shop.rate)
  const noted = done.flatMap(({ slips }) => slips).length
  const score = now.over === undefined ? undefined : now.over === 'slip' ? 0 : scoreFrom(span, losses, noted)
  return { score, plan, worths, losses }
}

/** A move's kind and target as one word, for tables: `looked:where-hot`, `ended:send-in`. */
export const moveKey = (move: PracticeMove): string => {
  switch (move.type) {
    case 'stood':
    case 'put-back':
      return `${move.type}:${move.setup}`
    case 'looked':
      return move.question === undefined ? `looked:${move.step}` : `looked:${move.step}:${move.question}`
    case 'tried':
      return `tried:${move.fix}`
    case 'made-safe':
      return `made-safe:${move.stop}`
    case 'dared':
      return `dared:${move.act}`
    case 'ended':
      return `ended:${move.way}`
    default:
      return move.type
  }
}
