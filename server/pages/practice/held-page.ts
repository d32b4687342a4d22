/**
 * An exercise that its debrief does not follow at once: the class is still at it, it was closed before the end, or a
 * safety mistake ended it and the same tool can come again.
 */
import type { Knowledge } from '../../../shared/knowledge.js'
import type { Learner } from '../../../shared/practice.js'
import type { Played } from '../../practice/played.js'
import type { Frame } from '../layout/frame.js'
import { plainFrame } from '../layout/frame.js'
import { listWords } from '../layout/words.js'
import { debriefHref } from './bench-page.js'
import type { SlipBand } from './debrief-ending.js'
import { slipBand, slipWhen } from './debrief-ending.js'
import { homeOf } from './learner-home.js'
import { causeName } from './move-words.js'

export interface HeldPage {
  readonly frame: Frame
  readonly title: string
  readonly says: string
  /** what hurts is told at once, the fault is not */
  readonly slip: SlipBand | null
  /** the same tool once more, or what was wrong with it; null where neither is to be had */
  readonly again: { readonly learner: string; readonly same: string; readonly told: string } | null
  readonly home: { readonly name: string; readonly href: string }
}

export function heldPage(
  knowledge: Knowledge,
  played: Played,
  learner: Pick<Learner, 'id' | 'name'>,
  set: { readonly hushed: boolean; readonly ended: number; readonly of: number } | null,
): HeldPage {
  const { desk, start, done, exercise, now } = played
  const ends = now.over === 'slip' ? done.at(-1)?.slips.find(({ grade }) => grade === 'ends') : undefined
  const causes = start.causes.map((c) => causeName(knowledge, exercise.kind, desk.kind.model.causes[c]!.id))
  const title =
    ends && set?.hushed !== false
      ? 'Ended by a safety mistake'
      : set?.hushed
        ? 'Done'
        : 'Closed by the instructor'
  return {
    frame: plainFrame(title, 'practice'),
    title,
    says: !set
      ? 'What was wrong with it is not told yet: the tool can come again.'
      : set.hushed
        ? `${set.ended} of ${set.of} have ended. What it was is told when all have, or when the instructor closes it.`
        : `What was wrong: ${listWords(causes)}. You had not ended it, so it does not count.`,
    slip: ends ? slipBand(ends, slipWhen(played), true) : null,
    again:
      ends === undefined || set?.hushed === false
        ? null
        : {
            learner: learner.id,
            same: exercise.id,
            told: set ? '' : `${debriefHref(exercise.id)}?told=yes`,
          },
    home: { name: learner.name, href: homeOf(learner.id, exercise.setting.with) },
  }
}
