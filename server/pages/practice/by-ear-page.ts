/** The lesson by ear: a sound twin, this one, and which it is; then what it means. */
import type { Cause, Knowledge } from '../../../shared/knowledge.js'
import { bookOf } from '../../../shared/book-of-kind.js'
import { strengthIn } from '../../../shared/finding-rule.js'
import type { EarChoice, EarSign, SoundingKind } from '../../practice/by-ear.js'
import { earChoices, playedAs, soundingKinds } from '../../practice/by-ear.js'
import type { Frame } from '../layout/frame.js'
import { plainFrame } from '../layout/frame.js'
import { ofTen } from './debrief-words.js'
import type { LessonLink } from './lesson-links.js'
import { lessonHref, lessonsFor } from './lesson-links.js'
import type { KindWay, LessonQuestion } from './lesson-question.js'
import { kindWays, lessonQuestion } from './lesson-question.js'
import { lowered } from './move-words.js'

export interface ByEarPage {
  readonly frame: Frame
  readonly kind: string
  readonly kinds: readonly KindWay[]
  /** addresses of the sounds: a tool that runs as it should, and this one */
  readonly twin: string
  readonly sound: string
  readonly asked: LessonQuestion
  /** null until the learner has said something */
  readonly answer: ByEarAnswer | null
  /** "3 of 4 right"; null before the first */
  readonly tally: string | null
  readonly others: LessonLink
}

interface ByEarAnswer {
  readonly right: boolean
  readonly words: string
  readonly because: string | null
  /** "about 7 of 10 with worn-out battery", most common first */
  readonly behind: readonly string[]
  /** the same tool doing what the learner said it does; null where that was right */
  readonly said: { readonly words: string; readonly sound: string } | null
  readonly lessons: readonly LessonLink[]
  readonly next: string
}

const path = 'by-ear'

const words: Readonly<Record<EarSign | 'none', string>> = {
  slower: 'Slower than its twin',
  faster: 'Faster than its twin',
  'drop-outs': 'It drops out',
  rhythm: 'It drops out in an even rhythm',
  beat: 'A second, slower beat',
  sinks: 'Its note sinks',
  droop: 'It falls far in hair',
  grows: 'It hisses louder and louder',
  fades: 'It grows weaker, its note stays',
  none: 'It runs well',
}
const idOf = ({ sign }: EarChoice): keyof typeof words => sign ?? 'none'

/** What an address of the lesson asks for; numbers are whole and not below 0. */
export interface ByEarAsked {
  readonly kind: string
  readonly number: number
  readonly say: string
  /** how many were heard before this one, and how many of them were right */
  readonly heard: number
  readonly right: number
  readonly learner: string
}

/** @returns null where no kind of the rulebook says how it sounds */
export function byEarPage(knowledge: Knowledge, asked: ByEarAsked): ByEarPage | null {
  const kinds = soundingKinds(knowledge)
  const kind = kinds.find(({ id }) => id === asked.kind) ?? kinds[0]
  if (!kind) return null
  const { number, learner } = asked
  const choices = earChoices(knowledge, kind.id)
  const played = playedAs(choices, number)
  const said = choices.find((choice) => idOf(choice) === asked.say)
  const right = said === played
  const heard = asked.heard + (said ? 1 : 0)
  const rightNow = asked.right + (said && right ? 1 : 0)
  const question = lessonQuestion(
    path,
    { kind: kind.id, learner },
    choices.map((choice) => ({ value: idOf(choice), words: words[idOf(choice)] })),
  )
  return {
    frame: plainFrame('By ear', 'practice'),
    kind: kind.plainName,
    kinds: kindWays(
      knowledge,
      path,
      kinds.map(({ id }) => id),
      { kind: kind.id, learner },
    ),
    twin: soundHref(kind, number, 'twin'),
    sound: soundHref(kind, number, 'this'),
    asked: {
      ...question,
      hidden: [
        ...question.hidden,
        ...Object.entries({ n: number, heard: asked.heard, right: asked.right }).map(([name, value]) => ({
          name,
          value: String(value),
        })),
      ],
    },
    answer: said
      ? {
          right,
          words: right
            ? `Yes. ${words[idOf(played)]}.`
            : `You said: ${lowered(words[idOf(said)])}. It is: ${lowered(words[idOf(played)])}.`,
          said: right ? null : { words: words[idOf(said)], sound: soundHref(kind, number, idOf(said)) },
          next: `${lessonHref(path, { kind: kind.id, learner })}&${new URLSearchParams({ n: String(number + 1), heard: String(heard), right: String(rightNow) }).toString()}`,
          ...meaning(knowledge, kind, played, learner),
        }
      : null,
    tally: heard > 0 ? `${rightNow} of ${heard} right` : null,
    others: { name: 'Other lessons', href: lessonHref('', { learner }) },
  }
}

const soundHref = ({ id }: SoundingKind, number: number, which: string): string =>
  `/practice/lessons/${path}/${id}/${number}/${which}.wav`

/** As many causes as one remembers. */
const mostBehind = 3

function meaning(
  knowledge: Knowledge,
  kind: SoundingKind,
  { finding }: EarChoice,
  learner: string,
): Pick<ByEarAnswer, 'because' | 'behind' | 'lessons'> {
  if (!finding) return { because: null, behind: [], lessons: [] }
  const often = (cause: Cause) => cause.shares[kind.id]! * (strengthIn(finding, cause.id, kind.id) ?? 0)
  const causes = bookOf(knowledge, kind.id)
    .causes.filter((cause) => often(cause) > 0)
    .sort((a, b) => often(b) - often(a))
    .slice(0, mostBehind)
  return {
    because: finding.because,
    behind: causes.map(({ id, name }) => `${ofTen(strengthIn(finding, id, kind.id)!)} with ${lowered(name)}`),
    lessons: lessonsFor(
      knowledge,
      kind.id,
      causes.map(({ id }) => id),
      learner,
    ).slice(0, mostBehind),
  }
}

/** What the name of a sound stands for: the sign, null for a sound tool, undefined for no such name. */
export function signNamed(
  knowledge: Knowledge,
  kind: string,
  number: number,
  name: string,
): EarSign | null | undefined {
  const choices = earChoices(knowledge, kind)
  if (name === 'twin') return null
  if (name === 'this') return playedAs(choices, number).sign
  return choices.find((choice) => idOf(choice) === name)?.sign
}
