/** How the set exercise stands that somebody works on. */
import type { Exercise } from '../../shared/practice.js'
import { isHushed, setFor, setOf } from '../practice/hushed.js'
import type { Register } from '../register/register.js'

export interface SetStanding {
  readonly closed: boolean
  /** is what was wrong still kept from the class? */
  readonly hushed: boolean
  readonly ended: number
  readonly of: number
}

/** @returns null for an exercise of somebody's own choice */
export async function standingOfSet(
  register: Register,
  exercise: Pick<Exercise, 'setAs' | 'setting'>,
): Promise<SetStanding | null> {
  const id = setOf(exercise)
  if (id === undefined) return null
  const set = await register.setExercise(id)
  const [learners, exercises] = await Promise.all([
    register.learners(set.class),
    register.exercises({ class: set.class }),
  ])
  const ended = exercises.filter((it) => it.setAs === set.id && it.outcome !== null)
  return {
    closed: set.closedAt !== undefined,
    hushed: isHushed(set, learners, exercises),
    ended: new Set(ended.map(({ learner }) => learner)).size,
    of: setFor(set, learners, exercises).length,
  }
}

/** Ids of the class's set exercises of which the fault is still kept back. */
export async function hushedIn(register: Register, ofClass: string): Promise<ReadonlySet<string>> {
  const [learners, exercises, sets] = await Promise.all([
    register.learners(ofClass),
    register.exercises({ class: ofClass }),
    register.setExercises(ofClass),
  ])
  return new Set(sets.filter((set) => isHushed(set, learners, exercises)).map(({ id }) => id))
}
