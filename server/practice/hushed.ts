/** Of which set exercises nobody may be told yet what is wrong with the tool: somebody still has it to do. */
import type { Exercise, ExerciseSummary, Learner, SetExercise } from '../../shared/practice.js'

/** The set exercise whose tool this one has, tried once more or not; undefined for a tool of somebody's own choice. */
export const setOf = ({ setAs, setting }: Pick<Exercise, 'setAs' | 'setting'>): string | undefined =>
  setAs ?? setting.onceMore

type Has = Pick<ExerciseSummary, 'setAs' | 'learner' | 'outcome'>

/**
 * Whom a set exercise is for: those in the class when it was set, and whoever has begun it since. A newcomer who leaves
 * it holds nobody back. Set before anybody came, it is for all.
 */
export function setFor<One extends Pick<Learner, 'id' | 'since'>>(
  set: Pick<SetExercise, 'id' | 'setAt'>,
  learners: readonly One[],
  exercises: readonly Pick<Has, 'setAs' | 'learner'>[],
): readonly One[] {
  const wasThere = ({ since }: One) => since <= set.setAt
  if (!learners.some(wasThere)) return learners
  const begun = new Set(exercises.flatMap(({ setAs, learner }) => (setAs === set.id ? [learner] : [])))
  return learners.filter((it) => wasThere(it) || begun.has(it.id))
}

/**
 * A set exercise is told when the instructor closes it, or when all whom it is for have ended theirs: a second try, a
 * new name or an early safety mistake learns nothing before.
 */
export const isHushed = (
  set: Pick<SetExercise, 'id' | 'setAt' | 'closedAt'>,
  learners: readonly Pick<Learner, 'id' | 'since'>[],
  exercises: readonly Has[],
): boolean =>
  set.closedAt === undefined &&
  setFor(set, learners, exercises).some(
    ({ id }) => !exercises.some((it) => it.setAs === set.id && it.learner === id && it.outcome !== null),
  )
