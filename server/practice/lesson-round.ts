/** How far a lesson is, and what somebody does in it. */
import type { ExerciseSummary, Lesson } from '../../shared/practice.js'

export const partNow = ({ parts }: Pick<Lesson, 'parts'>): Lesson['parts'][number] => parts.at(-1)!

/** Is it under way? */
export const goesOn = (lesson: Lesson | null): lesson is Lesson =>
  lesson !== null && partNow(lesson).id !== 'over'

/** What is set for the round that goes on, or went last, by id; undefined before the first. */
export const roundOf = (lesson: Lesson): string | undefined => lesson.again ?? lesson.play

/** What somebody does of a round: their own exercise, or that of whoever has the same phone. */
export function triedBy(
  exercises: readonly ExerciseSummary[],
  round: string | undefined,
  learner: string,
): ExerciseSummary | undefined {
  const those = exercises.filter(({ setAs }) => round !== undefined && setAs === round)
  return those.find((it) => it.learner === learner) ?? those.find(({ setting }) => setting.with === learner)
}
