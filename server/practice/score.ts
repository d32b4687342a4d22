/**
 * The score of an exercise, by expectation:
 *
 *     score = 100 · plan / (plan + losses)
 *
 * `plan` is what the plan expects the tool to cost from its complaint to its end, `losses` the sum of what each move
 * lost against the plan in the situation in which it was made (worth.ts says why luck has no part in it). Who makes
 * the plan's moves has 100 whatever the tool; who loses as much as the whole tool should have cost has 50. A slip
 * that ends the exercise leaves 0: what a hand is worth is not weighed against minutes. Slips that are only noted
 * are counted beside the score.
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

/** @param plan above 0; @param losses at least 0; both money */
export const scoreFrom = (plan: number, losses: number): number => 100 * (plan / (plan + losses))

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
  const score = now.over === undefined ? undefined : now.over === 'slip' ? 0 : scoreFrom(plan, losses)
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
