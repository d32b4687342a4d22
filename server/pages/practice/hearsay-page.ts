/** Advice that goes round: first what the learner says to it, then what is so, and why. */
import { bookOf } from '../../../shared/book-of-kind.js'
import type { Hearsay, Knowledge } from '../../../shared/knowledge.js'
import { Stands } from '../../../shared/lesson-files.js'
import type { Frame } from '../layout/frame.js'
import { plainFrame } from '../layout/frame.js'
import type { SourceView } from '../layout/source-view.js'
import { sourceView } from '../layout/source-view.js'
import type { LessonEnding } from './lesson-ending.js'
import { lessonEnding } from './lesson-ending.js'
import type { LessonLink } from './lesson-links.js'
import { lessonHref } from './lesson-links.js'
import type { KindWay, LessonQuestion } from './lesson-question.js'
import { kindWays, lessonQuestion } from './lesson-question.js'

export interface HearsayPage {
  readonly frame: Frame
  readonly name: string
  readonly told: string
  readonly kinds: readonly KindWay[]
  readonly asked: LessonQuestion
  /** null until the learner has said something */
  readonly answer: HearsayAnswer | null
  readonly others: LessonLink
}

interface HearsayAnswer {
  readonly verdict: string
  readonly because: readonly string[]
  readonly instead: readonly string[]
  readonly cautions: readonly string[]
  /** what may happen to whom, where the advice hurts */
  readonly hurts: string | null
  readonly confusion: LessonLink | null
  readonly source: SourceView
  readonly ending: LessonEnding
}

const choices: Readonly<Record<Stands, string>> = {
  right: 'Right',
  wrong: 'Wrong',
  depends: 'It depends',
}

/** What was said, and how it stands. */
const verdicts: Readonly<Record<Stands, string>> = {
  right: 'It is right.',
  wrong: 'It is wrong.',
  depends: 'It depends.',
}

/**
 * @param asked.kind    one that the advice is for; the first of them otherwise
 * @param asked.say     what the learner said of it; undefined before that
 * @param asked.learner key of the learner, or empty
 */
export function hearsayPage(
  knowledge: Knowledge,
  { id, kinds }: Hearsay,
  asked: { readonly kind: string; readonly say: Stands | undefined; readonly learner: string },
): HearsayPage {
  const kind = kinds.includes(asked.kind) ? asked.kind : kinds[0]!
  const { say, learner } = asked
  const path = `hearsay/${id}`
  const book = bookOf(knowledge, kind)
  const own = book.hearsay.find((it) => it.id === id)!
  return {
    frame: plainFrame(own.name, 'practice'),
    name: own.name,
    told: own.told,
    kinds: kindWays(knowledge, path, kinds, { kind, learner }),
    asked: lessonQuestion(
      path,
      { kind, learner },
      Stands.options.map((value) => ({ value, words: choices[value] })),
    ),
    answer: say === undefined ? null : answerTo(knowledge, own, kind, say, learner),
    others: { name: 'Other lessons', href: lessonHref('', { learner }) },
  }
}

function answerTo(
  knowledge: Knowledge,
  own: Hearsay,
  kind: string,
  say: Stands,
  learner: string,
): HearsayAnswer {
  const { confusions, slips } = bookOf(knowledge, kind)
  const confusion = confusions.find(({ id }) => id === own.confusion)
  const same = say === own.stands
  return {
    verdict: same
      ? `Yes. ${verdicts[own.stands]}`
      : `You said: ${choices[say].toLowerCase()}. ${verdicts[own.stands]}`,
    because: own.because,
    instead: own.instead,
    cautions: own.cautions,
    hurts: slips.find(({ id }) => id === own.slip)?.why ?? null,
    confusion: confusion
      ? { name: confusion.name, href: lessonHref(`confusions/${confusion.id}`, { kind, learner }) }
      : null,
    source: sourceView(knowledge, own.source),
    ending: lessonEnding(knowledge, { lesson: `hearsay/${own.id}`, kind, learner }),
  }
}
