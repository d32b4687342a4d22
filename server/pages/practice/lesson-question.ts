/** What lessons that ask first have in common: the form of the question, and the same with another kind of tool. */
import type { Knowledge } from '../../../shared/knowledge.js'
import { lessonHref } from './lesson-links.js'

/** A form that is sent as an address, so that going back asks again. */
export interface LessonQuestion {
  readonly action: string
  readonly hidden: readonly { readonly name: string; readonly value: string }[]
  readonly choices: readonly { readonly value: string; readonly words: string }[]
}

/** A kind that the lesson is told of; the one that the page speaks of has no way. */
export interface KindWay {
  readonly name: string
  readonly href: string | null
}

/** Whose lesson it is, and of which kind of tool; `learner` is a key, or empty. */
interface Asked {
  readonly kind: string
  readonly learner: string
}

export const lessonQuestion = (
  path: string,
  { kind, learner }: Asked,
  choices: LessonQuestion['choices'],
): LessonQuestion => ({
  action: lessonHref(path),
  hidden: [{ name: 'kind', value: kind }, ...(learner === '' ? [] : [{ name: 'for', value: learner }])],
  choices,
})

/** @param kinds ids of those that it is told of */
export const kindWays = (
  knowledge: Knowledge,
  path: string,
  kinds: readonly string[],
  { kind, learner }: Asked,
): KindWay[] =>
  knowledge.kinds
    .filter(({ id }) => kinds.includes(id))
    .map(({ id, plainName }) => ({
      name: plainName,
      href: id === kind ? null : lessonHref(path, { kind: id, learner }),
    }))
