/** What a class has done, as its pages need it: what may be told already, and the small words for it. */
import { bookOf } from '../../../shared/book-of-kind.js'
import type { Knowledge } from '../../../shared/knowledge.js'
import type { ExerciseSummary, Learner, PracticeClass, SetExercise } from '../../../shared/practice.js'
import { inTime } from '../../practice/items.js'
import { isHushed, setFor, setOf } from '../../practice/hushed.js'
import type { Rating } from '../../practice/recall.js'
import { ratingOf } from '../../practice/recall.js'
import type { Result } from '../../practice/result.js'

export interface ClassWork {
  readonly knowledge: Knowledge
  readonly ofClass: PracticeClass
  /** by name */
  readonly learners: readonly Learner[]
  /** lately changed first, those under way too */
  readonly exercises: readonly ExerciseSummary[]
  /** of those that are over, any order */
  readonly results: readonly Result[]
  /** latest first */
  readonly sets: readonly SetExercise[]
}

/** The exercise that counts for a learner: the first that came to an end, else the one under way. */
export function attemptOf(
  { exercises }: Pick<ClassWork, 'exercises'>,
  set: string,
  learner: string,
): ExerciseSummary | undefined {
  const own = exercises.filter((it) => it.setAs === set && it.learner === learner)
  const ended = own.filter(({ outcome }) => outcome !== null)
  const [first] = ended.sort((a, b) => (a.changedAt < b.changedAt ? -1 : 1))
  return first ?? own[0]
}

/** Who still has a set exercise before them, or is at it. */
export const stillToGo = (work: ClassWork, set: SetExercise): Learner[] =>
  setFor(set, work.learners, work.exercises).filter(({ id }) => !attemptOf(work, set.id, id)?.outcome)

/**
 * The results of which the causes may be named: a set exercise tells nothing while somebody still has it to do,
 * because an instructor's page lies open among the class.
 *
 * @param all named in any case: the instructor asked for it
 */
export function tellable(
  work: ClassWork,
  all: boolean,
): { readonly results: readonly Result[]; readonly kept: readonly SetExercise[] } {
  const kept = all ? [] : work.sets.filter((set) => isHushed(set, work.learners, work.exercises))
  const hushed = new Set(kept.map(({ id }) => id))
  const setBy = new Map(work.exercises.map((it) => [it.id, setOf(it)]))
  return { results: work.results.filter(({ exercise }) => !hushed.has(setBy.get(exercise) ?? '')), kept }
}

/** Latest first, at most so many. */
export const lately = (results: readonly Result[], most: number): Result[] =>
  inTime(results).reverse().slice(0, most)

/** How well all that was wrong with a tool was found: as well as the worst of it. */
export const foundOf = (result: Result): Rating =>
  Math.min(...result.causes.map((cause) => ratingOf(result, cause))) as Rating

const foundWordsOf: Readonly<Record<Rating, string>> = {
  4: 'found and sure',
  3: 'found',
  2: 'nearly',
  1: 'not named',
}
export const foundWords = (rating: Rating): string => foundWordsOf[rating]

/** A slip by the name that it has for a kind. */
export const slipIn = (knowledge: Knowledge, kind: string, id: string) =>
  bookOf(knowledge, kind).slips.find((slip) => slip.id === id)
