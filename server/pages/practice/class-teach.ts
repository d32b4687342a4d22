/** What a class should be taught next: slips that recur, what it mixes up, what nobody found. */
import { bookOf } from '../../../shared/book-of-kind.js'
import type { Knowledge } from '../../../shared/knowledge.js'
import { masteryOf } from '../../practice/mastery.js'
import type { Result } from '../../practice/result.js'
import { peopleWords, slipsIn } from './class-learners.js'
import type { MixUp } from '../../practice/mixed-up.js'
import { mixUpsIn } from '../../practice/mixed-up.js'
import { lately, slipIn } from './class-work.js'
import { causeInWords, kindName } from './found-words.js'
import type { LessonLink } from './lesson-links.js'
import { lessonHref, lessonsFor } from './lesson-links.js'
import { causeName } from './move-words.js'
import { counted, timesWords } from '../layout/words.js'

interface TeachItem {
  readonly what: string
  /** counts: how often, who, how much */
  readonly seen: string
  /** for a slip: why it hurts, and the right order; empty otherwise */
  readonly why: string | null
  readonly right: readonly string[]
  readonly lessons: readonly LessonLink[]
}

export interface Teach {
  readonly slips: readonly TeachItem[]
  readonly mixUps: readonly TeachItem[]
  readonly notFound: readonly TeachItem[]
  /** how many exercises this is read from */
  readonly from: string
  readonly empty: boolean
}

/** Exercises of a class that "lately" stands for: six each of ten people. */
const latelyOfClass = 60
const mostOfEach = 3

/**
 * @param all  every result: slips are told whatever else is kept back
 * @param told results of which the causes may be named
 */
export function teachOf(knowledge: Knowledge, all: readonly Result[], told: readonly Result[]): Teach {
  const recent = lately(told, latelyOfClass)
  const ends = (it: { slip: string; kind: string }) => slipIn(knowledge, it.kind, it.slip)?.grade === 'ends'
  // what would have hurt somebody is told after the first time; small ones when they come again
  const slips = slipsIn(lately(all, latelyOfClass))
    .filter((it) => it.times > 1 || ends(it))
    .sort((a, b) => Number(ends(b)) - Number(ends(a)))
  const mixUps = mixUpsIn(recent)
  const missed = masteryOf(recent)
    .filter(({ found }) => found === 0)
    .sort((a, b) => b.times - a.times)
  return {
    slips: slips.slice(0, mostOfEach).map((it) => slipItem(knowledge, it)),
    mixUps: mixUps.slice(0, mostOfEach).map((it) => mixUpItem(knowledge, it)),
    notFound: missed.slice(0, mostOfEach).map(({ kind, cause, times }) => ({
      what: `${causeName(knowledge, kind, cause)} (${kindName(knowledge, kind)})`,
      seen: `Was there ${timesWords(times)}, and nobody found it.`,
      why: null,
      right: [],
      lessons: lessonsFor(knowledge, kind, [cause]).slice(0, 2),
    })),
    from: counted(recent.length, 'exercise'),
    empty: slips.length + mixUps.length + missed.length === 0,
  }
}

function slipItem(
  knowledge: Knowledge,
  { slip, kind, times, by }: ReturnType<typeof slipsIn>[number],
): TeachItem {
  const entry = slipIn(knowledge, kind, slip)
  return {
    what: entry?.name ?? 'A slip no longer in the rulebook',
    seen: `In ${counted(times, 'exercise')}, by ${peopleWords(by)}.`,
    why: entry?.why ?? null,
    right: entry?.right ?? [],
    lessons: [],
  }
}

function mixUpItem(knowledge: Knowledge, { kind, cause, other, points, times }: MixUp): TeachItem {
  const both = bookOf(knowledge, kind).confusions.find(
    ({ rivals }) => rivals.includes(cause) && rivals.includes(other),
  )
  return {
    what: `${causeName(knowledge, kind, cause)}, taken for ${causeInWords(knowledge, kind, other)}`,
    seen: `${Math.round(points)} of 100 points went to the wrong one, in ${counted(times, 'exercise')} (${kindName(knowledge, kind)}).`,
    why: null,
    right: [],
    lessons: both
      ? [{ name: both.name, href: lessonHref(`confusions/${both.id}`, { kind }) }]
      : lessonsFor(knowledge, kind, [cause, other]).slice(0, 2),
  }
}
