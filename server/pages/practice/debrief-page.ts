/** The debrief of a finished exercise, as one page. */
import type { Learner } from '../../../shared/practice.js'
import type { Debrief } from '../../practice/debrief.js'
import type { LookedBack } from '../../practice/look-back.js'
import type { Played } from '../../practice/played.js'
import type { Frame } from '../layout/frame.js'
import { plainFrame } from '../layout/frame.js'
import type { Ending } from './debrief-ending.js'
import { endingOf } from './debrief-ending.js'
import type { MisledView } from './debrief-misled.js'
import { misledOf } from './debrief-misled.js'
import type { LessonView } from './debrief-lesson.js'
import { lessonOf } from './debrief-lesson.js'
import type { PointsView } from './debrief-points.js'
import { pointsOf } from './debrief-points.js'
import type { StepView } from './debrief-steps.js'
import { stepsOf } from './debrief-steps.js'
import type { Sum } from './debrief-sum.js'
import { sumOf } from './debrief-sum.js'
import type { Ways } from './debrief-ways.js'
import { waysOf } from './debrief-ways.js'
import { homeOf } from './learner-home.js'

export interface DebriefPage {
  readonly frame: Frame
  /** where the rulebook has changed since the exercise ended, in words; empty otherwise */
  readonly changed: string
  readonly ending: Ending
  readonly lesson: LessonView
  readonly again: Again
  readonly sum: Sum
  /** null where none were spread */
  readonly points: PointsView | null
  readonly misled: MisledView
  readonly ways: Ways
  readonly steps: readonly StepView[]
  readonly home: { readonly name: string; readonly href: string }
}

/** What the buttons for another exercise send. */
interface Again {
  readonly action: string
  readonly learner: string
  /** of who is at the same phone; empty where nobody is */
  readonly beside: string
  readonly level: string
  readonly kind: string
}

/** @param changed is the tool another one than the learner had, because the rulebook has changed? */
export function debriefPage(
  played: Played,
  debrief: Debrief,
  back: LookedBack,
  learner: Pick<Learner, 'id' | 'name'>,
  changed = false,
): DebriefPage {
  const { level, kind, setting } = played.exercise
  return {
    frame: plainFrame('Debrief', 'practice'),
    changed: changed
      ? 'The rulebook has changed since this exercise ended, and so has the tool that it draws. What follows goes by today’s; your record keeps what it came to then.'
      : '',
    ending: endingOf(played, debrief, back),
    lesson: lessonOf(played, debrief, back),
    again: { action: '/practice/exercises', learner: learner.id, beside: setting.with ?? '', level, kind },
    sum: sumOf(played, debrief),
    points: pointsOf(played, debrief),
    misled: misledOf(played, back),
    ways: waysOf(played, debrief, back),
    steps: stepsOf(played, debrief, back),
    home: { name: learner.name, href: homeOf(learner.id, setting.with) },
  }
}

/** While it is worked out. */
export interface DebriefWaitPage {
  readonly frame: Frame
  readonly href: string
}

export const debriefWaitPage = (exercise: string): DebriefWaitPage => ({
  frame: plainFrame('Going through it once more', 'practice'),
  href: `/practice/exercises/${exercise}/debrief`,
})
