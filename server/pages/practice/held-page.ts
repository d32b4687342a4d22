/** A set exercise that its debrief does not follow at once: the class is still at it, or it was closed before the end. */
import type { Knowledge } from '../../../shared/knowledge.js'
import type { Learner } from '../../../shared/practice.js'
import type { Played } from '../../practice/played.js'
import type { Frame } from '../layout/frame.js'
import { plainFrame } from '../layout/frame.js'
import { listWords } from '../layout/words.js'
import type { SlipBand } from './debrief-ending.js'
import { slipBand, slipWhen } from './debrief-ending.js'
import { causeName } from './move-words.js'

export interface HeldPage {
  readonly frame: Frame
  readonly title: string
  readonly says: string
  /** what hurts is told at once, the fault is not */
  readonly slip: SlipBand | null
  readonly home: { readonly name: string; readonly href: string }
}

export function heldPage(
  knowledge: Knowledge,
  played: Played,
  learner: Pick<Learner, 'id' | 'name'>,
  set: { readonly hushed: boolean; readonly ended: number; readonly of: number },
): HeldPage {
  const { desk, start, done, exercise, now } = played
  const ends = now.over === 'slip' ? done.at(-1)?.slips.find(({ grade }) => grade === 'ends') : undefined
  const causes = start.causes.map((c) => causeName(knowledge, exercise.kind, desk.kind.model.causes[c]!.id))
  const title = set.hushed ? (ends ? 'Ended by a safety mistake' : 'Done') : 'Closed by the instructor'
  return {
    frame: plainFrame(title, 'practice'),
    title,
    says: set.hushed
      ? `${set.ended} of ${set.of} have ended. What it was is told when all have, or when the instructor closes it.`
      : `What was wrong: ${listWords(causes)}. You had not ended it, so it does not count.`,
    slip: ends ? slipBand(ends, slipWhen(played)) : null,
    home: { name: learner.name, href: `/practice/people/${learner.id}` },
  }
}
