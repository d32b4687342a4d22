/** Losses, shares and reasons of a debrief in words: minutes and counts, never decimals. */
import type { PracticeMove } from '../../../shared/practice.js'
import type { Compared, Promised } from '../../practice/compared.js'
import type { Desk } from '../../practice/desk.js'
import { moveKey } from '../../practice/score.js'
import { noLoss } from '../../practice/take-along.js'
import { minutes } from '../layout/words.js'
import { lowered, moveAsAdvice } from './move-words.js'

/** "about 3 minutes lost"; `lost` in minutes, at least 0. */
export const lostWords = (lost: number): string =>
  lost < noLoss ? 'as good as the plan’s' : `${minutes(lost)} lost`

/** "about 3 of 10"; `share` in [0, 1]. */
export function ofTen(share: number): string {
  if (share < 0.05) return 'hardly one of 10'
  if (share >= 0.95) return 'nearly all of 10'
  return `about ${Math.round(share * 10)} of 10`
}

/** What the plan would have done; where that only gets the tool ready, also what for. */
export function planWords(desk: Desk, next: PracticeMove, goal: PracticeMove): string {
  const first = moveAsAdvice(desk, next)
  return moveKey(next) === moveKey(goal) ? first : `${first}; then ${lowered(moveAsAdvice(desk, goal))}`
}

/** Bits that a look has to tell more than another before one says so, and the same as a share. */
const tellsMore = { bits: 0.05, share: 1.2 } as const
/** Minutes that nobody counts. */
const fewSeconds = 0.75

/** Why the plan went another way: phrases for the middle of a sentence, at most two. */
export function reasonWords(move: PracticeMove, { rule, goal, yours, plans }: Compared): string {
  if (rule === 'stop-known') return 'a danger is known, and then nothing else is right'
  if (rule === 'danger-first') return 'the danger questions come before anything else'
  if (rule === 'mended') return mendedReason(goal)
  if (goal.type === 'ended') return endReason(goal.way, yours)
  const reasons = [...ownReasons(move, yours), ...(plans ? plansReasons(move, yours, plans) : [])]
  return reasons.slice(0, 2).join(', and ') || 'from there it is the shorter way on average'
}

function mendedReason(goal: PracticeMove): string {
  if (goal.type === 'disinfected') return 'the trouble was gone, and a tool goes back clean'
  if (goal.type === 'made-safe')
    return 'the trouble was gone, but what had made it unsafe was still to be seen to'
  return 'the trouble was gone: nothing was left to find or to fix'
}

function endReason(way: string, yours: Promised | undefined): string {
  const own = yours?.stale ? 'yours could tell nothing new, and ' : ''
  return way === 'send-in'
    ? `${own}by then the service was cheaper than going on`
    : `${own}by then going on cost more than the tool was worth`
}

/** What spoke against the learner's own move. */
function ownReasons(move: PracticeMove, yours: Promised | undefined): string[] {
  if (move.type === 'stood') return ['nothing needed that yet']
  if (move.type === 'put-back') return ['it was still needed as it was']
  if (move.type === 'ended') return ['there was still something worth its time here']
  if (move.type === 'dared') return ['that tells nothing and fixes nothing']
  if (move.type === 'disinfected') return ['that was done already']
  if (yours?.stale) return ['yours could tell nothing new']
  if (yours?.mends === undefined) return []
  return [`as things stood, your repair ends the trouble in ${ofTen(yours.mends)} such tools`]
}

/** What spoke for the plan's. */
function plansReasons(move: PracticeMove, yours: Promised | undefined, plans: Promised): string[] {
  const reasons: string[] = []
  if (plans.mends !== undefined && plans.mends > (yours?.mends ?? 0))
    reasons.push(`it ends the trouble in ${ofTen(plans.mends)} such tools`)
  const both = yours !== undefined && !yours.stale
  if (both && plans.mends === undefined && tells(plans, yours))
    reasons.push(move.type === 'tried' ? 'it tells you what to fix' : 'it tells more')
  if (yours && plans.minutes < yours.minutes - fewSeconds)
    reasons.push(`it takes ${minutes(plans.minutes)} instead of ${bare(minutes(yours.minutes))}`)
  return reasons
}

const tells = (plans: Promised, yours: Promised): boolean =>
  plans.tells > yours.tells * tellsMore.share && plans.tells > yours.tells + tellsMore.bits

/** "9 minutes" beside an "about" that was said already. */
const bare = (words: string): string => words.replace(/^about /, '')
