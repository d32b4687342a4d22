/** All lessons: by kind of tool its parts and what looks the same, and what is often told. */
import { bookOf } from '../../../shared/book-of-kind.js'
import type { Knowledge } from '../../../shared/knowledge.js'
import type { Frame } from '../frame.js'
import { plainFrame } from '../frame.js'
import type { LessonLink } from './lesson-links.js'
import { lessonHref } from './lesson-links.js'

export interface LessonsPage {
  readonly frame: Frame
  readonly kinds: readonly {
    readonly id: string
    readonly name: string
    readonly drawing: string
    readonly alt: string
    readonly parts: readonly LessonLink[]
    readonly confusions: readonly LessonLink[]
  }[]
  readonly hearsay: readonly LessonLink[]
  /** the way back to the learner's own start, or to the door */
  readonly back: LessonLink
}

/** @param learner key of the learner, or empty */
export const lessonsPage = (knowledge: Knowledge, learner: string): LessonsPage => ({
  frame: plainFrame('Lessons', 'practice'),
  kinds: knowledge.kinds.map(({ id, plainName, drawing, parts }) => {
    const { causes, confusions } = bookOf(knowledge, id)
    return {
      id,
      name: plainName,
      drawing,
      alt: `Drawing of a ${plainName}`,
      parts: parts
        .filter((part) => causes.some((cause) => cause.part === part.id))
        .map((part) => ({ name: part.name, href: lessonHref(`parts/${id}/${part.id}`, { learner }) })),
      confusions: confusions.map((it) => ({
        name: it.name,
        href: lessonHref(`confusions/${it.id}`, { kind: id, learner }),
      })),
    }
  }),
  hearsay: knowledge.hearsay.map((it) => ({
    name: it.name,
    href: lessonHref(`hearsay/${it.id}`, { learner }),
  })),
  back:
    learner === ''
      ? { name: 'Who practises?', href: '/practice' }
      : { name: 'Back to your bench', href: `/practice/people/${learner}` },
})
