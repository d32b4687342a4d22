/** What is mixed up with what, the most first, each with the lesson that tells the two apart. */
import { bookOf } from '../../../shared/book-of-kind.js'
import type { Knowledge } from '../../../shared/knowledge.js'
import type { MixUpRow } from '../../practice/mastery.js'
import { mixUpsOf } from '../../practice/mastery.js'
import type { Result } from '../../practice/result.js'
import { othersOf } from './confusion-picture.js'
import { causeInWords, kindName } from './found-words.js'
import type { LessonLink } from './lesson-links.js'
import { lessonHref, lessonsFor } from './lesson-links.js'
import { causeName } from './move-words.js'
import { timesWords } from '../layout/words.js'

export interface MixUp {
  readonly title: string
  readonly says: string
  /** empty where there is one kind only */
  readonly kind: string
  readonly lesson: LessonLink | null
}

/** Mean points on the wrong one, from which it is told. */
const least = 20

const most = 3

/** In how many exercises with points a cause of a kind was there. */
export const timesWithPoints = (results: readonly Result[], kind: string, cause: string): number =>
  results.filter((it) => it.kind === kind && it.spread !== undefined && it.causes.includes(cause)).length

interface Pair {
  readonly kind: string
  readonly was: string
  readonly taken: string
  readonly mean: number
  readonly total: number
}

export function biggestMixUps(
  knowledge: Knowledge,
  results: readonly Result[],
  kinds: readonly string[],
  learner: string,
): MixUp[] {
  const pairs = kinds
    .flatMap((kind) => mixUpsOf(results, kind).flatMap((row) => pairsOf(kind, row)))
    .sort((a, b) => b.total - a.total)
  const turned = (it: Pair) =>
    pairs.find(({ kind, was, taken }) => kind === it.kind && was === it.taken && taken === it.was)
  return (
    pairs
      // of the two ways round, the one with more points stands for both
      .filter((it, place) => {
        const other = turned(it)
        return other === undefined || pairs.indexOf(other) > place
      })
      .slice(0, most)
      .map((it) => {
        const other = turned(it)
        const times = timesWords(timesWithPoints(results, it.kind, it.was))
        const mean = `${Math.round(it.mean)} of 100 points`
        return {
          title: `${causeName(knowledge, it.kind, it.was)}, taken for ${causeInWords(knowledge, it.kind, it.taken)}`,
          says: [
            `It was there ${times}, and ${mean} went to the wrong one${times === 'once' ? '' : ', on average'}`,
            ...(other ? [`the other way round ${Math.round(other.mean)} of 100`] : []),
          ].join('; '),
          kind: kinds.length > 1 ? kindName(knowledge, it.kind) : '',
          lesson: lessonThatTells(knowledge, it, learner),
        }
      })
  )
}

const pairsOf = (kind: string, row: MixUpRow): Pair[] =>
  othersOf(row)
    .filter(([, mean]) => mean >= least)
    .map(([taken, mean]) => ({ kind, was: row.cause, taken, mean, total: row.weight * mean }))

/** The confusion that both are rivals in; else the first lesson that has to do with what it was. */
function lessonThatTells(
  knowledge: Knowledge,
  { kind, was, taken }: Pair,
  learner: string,
): LessonLink | null {
  const confusion = bookOf(knowledge, kind).confusions.find(
    ({ rivals }) => rivals.includes(was) && rivals.includes(taken),
  )
  if (confusion)
    return { name: confusion.name, href: lessonHref(`confusions/${confusion.id}`, { learner, kind }) }
  return lessonsFor(knowledge, kind, [was], learner)[0] ?? null
}
