/** The learner's way beside a good one, in five lines at most: where they part most, and how it ended. */
import type { Debrief, DebriefStep } from '../../practice/debrief.js'
import type { LookedBack } from '../../practice/look-back.js'
import type { Played } from '../../practice/played.js'
import { noLoss } from '../../practice/take-along.js'
import { minutes } from '../layout/words.js'
import { moveAsAdvice, moveWords } from './move-words.js'

interface WayLine {
  /** the number of the move */
  readonly number: number
  readonly yours: string
  /** "about 3 minutes lost"; empty where nothing was */
  readonly lost: string
  readonly good: string
}

export interface Ways {
  readonly lines: readonly WayLine[]
  /** "4 more moves were as good as any."; empty where all are told */
  readonly rest: string
}

const mostLines = 5
/** What is not shown beside the other way: getting the tool ready, and the points. */
const unshown = ['stood', 'put-back', 'spread', 'made-safe']

interface Numbered {
  readonly step: DebriefStep
  readonly k: number
  readonly loss: number
}

export function waysOf({ desk }: Played, debrief: Debrief, back: LookedBack): Ways {
  const moves = debrief.steps.flatMap((step, k): Numbered[] =>
    step.done.refused !== undefined || (step.slips.length === 0 && unshown.includes(step.done.move.type))
      ? []
      : [{ step, k, loss: step.worth ? step.lostMinutes : 0 }],
  )
  const last = moves.at(-1)
  const byLoss = [...moves].filter((it) => it !== last).sort((a, b) => b.loss - a.loss || a.k - b.k)
  const told = [...byLoss.slice(0, mostLines - 1), ...(last ? [last] : [])].sort((a, b) => a.k - b.k)
  const left = moves.filter((it) => !told.includes(it))
  const lost = left.reduce((sum, { loss }) => sum + loss, 0)
  return {
    lines: told.map(({ step, k, loss }) => {
      // worst first; a move that hurts is never as good as any, whatever it cost
      const [slip] = step.slips
      const goal = back.compared[k]?.goal
      return {
        number: k + 1,
        yours: moveWords(desk, step.done.move),
        lost: loss >= noLoss ? `${minutes(loss)} lost` : '',
        good: slip ? slip.right[0]! : goal ? moveAsAdvice(desk, goal) : 'The same',
      }
    }),
    rest:
      left.length === 0
        ? ''
        : lost < noLoss
          ? `${left.length} more, as good as any.`
          : `${left.length} more, ${minutes(lost)} lost.`,
  }
}
