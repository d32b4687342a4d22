/** What every lesson ends with: a tool on which to try what was read. */
import type { Knowledge } from '../../../shared/knowledge.js'
import { Key } from '../../../shared/practice.js'
import { levelOfLesson } from '../../practice/lesson-causes.js'

/** A form that begins an exercise; who learns is asked at the door where nobody is named. */
export interface LessonEnding {
  readonly action: string
  readonly hidden: readonly { readonly name: string; readonly value: string }[]
  /** kinds to choose from; empty where the lesson is for one */
  readonly choices: readonly { readonly value: string; readonly words: string; readonly chosen: boolean }[]
  readonly level: string
  /** false where no level has all that the lesson is about: then there is no exercise to it */
  readonly isThere: boolean
}

/**
 * @param of.lesson  path below that of all lessons
 * @param of.kind    id of the kind that was read about
 * @param of.kinds   ids of kinds that may be practised on, where there are several
 * @param of.learner key of who learns, or empty
 */
export function lessonEnding(
  knowledge: Knowledge,
  of: {
    readonly lesson: string
    readonly kind: string
    readonly kinds?: readonly string[]
    readonly learner: string
  },
): LessonEnding {
  const { lesson, kind, learner } = of
  const fitting = knowledge.kinds.filter(
    ({ id }) => (of.kinds ?? [kind]).includes(id) && levelOfLesson(knowledge, lesson, id) !== undefined,
  )
  const first = fitting.find(({ id }) => id === kind) ?? fitting[0]
  const levelId = first && levelOfLesson(knowledge, lesson, first.id)
  const isOne = fitting.length < 2
  return {
    action: '/practice/exercises',
    hidden: [
      { name: 'lesson', value: lesson },
      ...(isOne && first ? [{ name: 'kind', value: first.id }] : []),
      ...(learner === '' ? [] : [{ name: 'learner', value: learner }]),
    ],
    choices: isOne
      ? []
      : fitting.map(({ id, plainName }) => ({ value: id, words: plainName, chosen: id === first?.id })),
    level: knowledge.levels.find(({ id }) => id === levelId)?.name ?? '',
    isThere: first !== undefined,
  }
}

/** Who learns, off an address (`?for=`); empty where it names nobody that could be. */
export function learnerAsked(query: Readonly<Record<string, unknown>>): string {
  const read = Key.safeParse(query['for'])
  return read.success ? read.data : ''
}
