/** The end of each lesson: the same trouble, or one that looks like it, on the practice bench. */
import type { Knowledge } from '../../../shared/knowledge.js'
import { Key } from '../../../shared/practice.js'
import { causesOfLesson } from '../../practice/lesson-causes.js'

export interface LessonEnding {
  /** path of the lesson, below that of all lessons */
  readonly lesson: string
  /** kinds of tool to practise it on */
  readonly kinds: readonly { readonly id: string; readonly name: string; readonly chosen: boolean }[]
  /** key of the learner; empty where nobody has said who learns */
  readonly learner: string
}

/** @param kind the one that the lesson spoke of, chosen at first */
export const lessonEnding = (
  knowledge: Knowledge,
  { lesson, kind, learner }: { readonly lesson: string; readonly kind: string; readonly learner: string },
): LessonEnding => ({
  lesson,
  kinds: knowledge.kinds
    .filter(({ id }) => causesOfLesson(knowledge, lesson, id).length > 0)
    .map(({ id, plainName }) => ({ id, name: plainName, chosen: id === kind })),
  learner,
})

/** Who learns, off `?for=`; empty where nobody does, and for what can be nobody's key. */
export function learnerAsked(query: Readonly<Record<string, unknown>>): string {
  const asked = Key.safeParse(query['for'])
  return asked.success ? asked.data : ''
}
