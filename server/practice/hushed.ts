/** Of which set exercises nobody may be told yet what is wrong with the tool: somebody still has it to do. */
import type { Exercise, ExerciseSummary, Learner, SetExercise } from '../../shared/practice.js'

/** The set exercise whose tool this one has, tried once more or not; undefined for a tool of somebody's own choice. */
export const setOf = ({ setAs, setting }: Pick<Exercise, 'setAs' | 'setting'>): string | undefined =>
  setAs ?? setting.onceMore

/**
 * A set exercise is told when the instructor closes it, or when everybody in the class has ended theirs: a second try,
 * a new name or an early safety mistake learns nothing before.
 */
export const isHushed = (
  set: Pick<SetExercise, 'id' | 'closedAt'>,
  learners: readonly Pick<Learner, 'id'>[],
  exercises: readonly Pick<ExerciseSummary, 'setAs' | 'learner' | 'outcome'>[],
): boolean =>
  set.closedAt === undefined &&
  learners.some(
    ({ id }) => !exercises.some((it) => it.setAs === set.id && it.learner === id && it.outcome !== null),
  )
