/** All lessons: by kind of tool its parts and what looks the same, and what is often told. */
import { bookOf } from '../../../shared/book-of-kind.js'
import type { Cause, Knowledge } from '../../../shared/knowledge.js'
import { soundingKinds } from '../../practice/by-ear.js'
import type { Frame } from '../layout/frame.js'
import { plainFrame } from '../layout/frame.js'
import type { PartsDrawing } from '../layout/parts-drawing.js'
import { partsMarked } from '../layout/parts-drawing.js'
import { inThousand, listWords } from '../layout/words.js'
import type { LessonLink } from './lesson-links.js'
import { lessonHref } from './lesson-links.js'

export interface LessonsPage {
  readonly frame: Frame
  readonly kinds: readonly {
    readonly id: string
    readonly name: string
    /** where most trouble sits */
    readonly drawing: PartsDrawing | null
    readonly most: string
    readonly parts: readonly (LessonLink & { readonly note: string })[]
    readonly confusions: readonly LessonLink[]
  }[]
  readonly hearsay: readonly LessonLink[]
  /** the lesson by ear; null where no kind says how it sounds */
  readonly byEar: string | null
  /** the way back to the learner's own start, or to the door */
  readonly back: LessonLink
}

/** @param learner key of the learner, or empty */
export const lessonsPage = (knowledge: Knowledge, learner: string): LessonsPage => ({
  frame: plainFrame('Lessons', 'practice'),
  kinds: knowledge.kinds.map((kind) => {
    const { id, plainName } = kind
    const { causes, confusions } = bookOf(knowledge, id)
    const parts = kind.parts
      .map((part) => ({ ...part, trouble: troubleIn(causes, id, part.id) }))
      .filter(({ trouble }) => trouble > 0)
    const most = [...parts].sort((a, b) => b.trouble - a.trouble).slice(0, mostMarked)
    return {
      id,
      name: plainName,
      drawing: partsMarked(kind, new Set(most.map((part) => part.id))),
      most: `Most trouble sits here: ${listWords(most.map(({ name }) => name.toLowerCase()))}.`,
      parts: parts.map((part) => ({
        name: part.name,
        href: lessonHref(`parts/${id}/${part.id}`, { learner }),
        note: `${inThousand(part.trouble)} troubled tools`,
      })),
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
  byEar: soundingKinds(knowledge).length > 0 ? lessonHref('by-ear', { learner }) : null,
  back:
    learner === ''
      ? { name: 'Who practises?', href: '/practice' }
      : { name: 'Back to your bench', href: `/practice/people/${learner}` },
})

/** As many parts as the drawing has room to label. */
const mostMarked = 3

/** Share of troubled tools of the kind whose main fault sits in the part, in [0, 1]; 0 where nothing fails in it. */
const troubleIn = (causes: readonly Cause[], kind: string, part: string): number =>
  causes
    .filter((cause) => cause.part === part && !cause.exclusive)
    .reduce((sum, { shares }) => sum + shares[kind]! / 1000, 0)
