/** An exercise gone through again, move by move: what was done, what the plan would have done, and what it cost. */
import type { EndWay, PracticeMove, Spread } from '../../shared/practice.js'
import type { Slip } from '../../shared/knowledge.js'
import type { Done } from './moves.js'
import { isMended } from './desk.js'
import { plansMove, plansSpread } from './model-player.js'
import type { Worth } from './plan-at.js'
import type { Played } from './played.js'
import type { Pause, Score } from './score.js'
import { noPause, scoreOf } from './score.js'
import type { Tells } from './told-by.js'
import { toldBy } from './told-by.js'

export interface DebriefStep {
  readonly done: Done
  /** the plan's move in the same situation */
  readonly plan: PracticeMove
  /** undefined for a move that was refused or that ended the exercise by a slip */
  readonly worth: Worth | undefined
  /** the loss in minutes at the bench, at what practice reckons a minute with */
  readonly lostMinutes: number
  readonly tells: readonly Tells[]
  readonly slips: readonly Slip[]
}

export interface Debrief extends Score {
  readonly steps: readonly DebriefStep[]
  /** ids of what was wrong with the tool, and what is left of it */
  readonly causes: readonly string[]
  readonly left: readonly string[]
  readonly over: EndWay | 'slip' | undefined
  /** the points that count, and those that the scores would have spread at that moment */
  readonly spread: Spread | undefined
  readonly planSpread: Spread | undefined
  readonly slips: readonly Slip[]
}

/**
 * About a second and a half of computing for 25 moves: the plan is made anew for each of their situations. Keep
 * what comes of it while the exercise and the rulebook stay as they are.
 */
export async function debriefOf(played: Played, pause: Pause = noPause): Promise<Debrief> {
  const { desk, done, now, start } = played
  const score = await scoreOf(played, pause)
  const steps: DebriefStep[] = []
  for (const [k, it] of done.entries()) {
    await pause()
    const worth = score.worths[k]
    steps.push({
      done: it,
      plan: await plansMove(desk, it.before),
      worth,
      lostMinutes: (worth?.loss ?? 0) / desk.shop.rate,
      tells: await toldBy(desk, it),
      slips: it.slips,
    })
  }
  const ids = (causes: readonly number[]) => causes.map((c) => desk.kind.model.causes[c]!.id)
  const spreadAt = [...done]
    .reverse()
    .find(({ move, refused }) => move.type === 'spread' && refused === undefined)
  return {
    ...score,
    steps,
    causes: ids(start.causes),
    left: ids(now.causes),
    over: now.over,
    spread: now.spread,
    planSpread: spreadAt && !isMended(spreadAt.before) ? await plansSpread(desk, spreadAt.before) : undefined,
    slips: done.flatMap(({ slips }) => slips),
  }
}
