/** A learner's exercises over time: points on what was there, and minutes lost against the plan. */
import type { Knowledge } from '../../../shared/knowledge.js'
import type { ExerciseSummary } from '../../../shared/practice.js'
import { inTime } from '../../practice/items.js'
import type { Result } from '../../practice/result.js'
import { counted, minutes } from '../layout/words.js'
import { agoWords } from './day-words.js'
import { foundWords, kindName } from './found-words.js'
import type { ProgressPicture } from './progress-picture.js'
import { progressPicture, roundMinutes } from './progress-picture.js'

export interface OverTime {
  readonly points: ProgressPicture
  readonly minutes: ProgressPicture
  /** how it went at first and how it goes now; empty while there is too little to compare */
  readonly trend: readonly string[]
  /** latest first */
  readonly rows: readonly {
    readonly href: string
    readonly when: string
    readonly found: string
    readonly points: string
    readonly lost: string
  }[]
  readonly leftOut: string
  readonly hasSlip: boolean
  readonly hasOpen: boolean
}

interface Finished extends Result {
  /** points on what was there, of 100; undefined without points */
  readonly right: number | undefined
  /** minutes; undefined while they are worked out */
  readonly lost: number | undefined
}

/** Nails that a phone has room for. */
const mostDrawn = 60

/** Exercises at each end that are compared. */
const mostCompared = 5

/** @returns null where nothing has ended */
export function overTime(
  knowledge: Knowledge,
  results: readonly Result[],
  summaries: readonly ExerciseSummary[],
  now: string,
): OverTime | null {
  const kept = new Map(summaries.map(({ id, outcome }) => [id, outcome]))
  const all: Finished[] = inTime(results).map((it) => ({
    ...it,
    right: it.spread && it.causes.reduce((sum, cause) => sum + (it.spread!.points[cause] ?? 0), 0),
    lost: kept.get(it.exercise)?.lostMinutes ?? undefined,
  }))
  if (all.length === 0) return null
  const drawn = all.slice(-mostDrawn)
  const slip = ({ over }: Finished) => over === 'slip'
  const trend = trendOf(all)
  const alt = `${counted(drawn.length, 'exercise')}, oldest on the left. ${trend.join(' ')}`.trim()
  return {
    points: progressPicture(
      drawn.map((it) => ({ value: it.right, slip: slip(it) })),
      100,
      `Points on what was wrong, of 100. ${alt}`,
      String,
    ),
    minutes: progressPicture(
      drawn.map((it) => ({ value: it.lost, slip: slip(it) })),
      roundMinutes(Math.max(0, ...drawn.map(({ lost }) => lost ?? 0))),
      `Minutes lost against the plan. ${alt}`,
      String,
    ),
    trend,
    rows: [...all].reverse().map((it) => ({
      href: `/practice/exercises/${it.exercise}/debrief`,
      when: `${kindName(knowledge, it.kind)}, ${agoWords(it.at, now)}`,
      found: foundWords(knowledge, it),
      points: it.right === undefined ? 'none spread' : `${it.right} of 100`,
      lost: slip(it)
        ? 'stopped by a slip'
        : it.lost === undefined
          ? 'being worked out'
          : it.lost < 0.75
            ? 'nothing'
            : minutes(it.lost),
    })),
    leftOut:
      all.length > drawn.length
        ? `Drawn are the last ${drawn.length}; the list below has all ${all.length}.`
        : '',
    hasSlip: drawn.some(slip),
    hasOpen: drawn.some(({ right, lost }) => right === undefined || lost === undefined),
  }
}

function trendOf(all: readonly Finished[]): string[] {
  const compared = Math.min(mostCompared, Math.floor(all.length / 2))
  if (compared < 2) return []
  const ends = [all.slice(0, compared), all.slice(-compared)] as const
  const sentence = (
    valueOf: (it: Finished) => number | undefined,
    words: (first: number, last: number) => string,
  ): string[] => {
    const [first, last] = ends.map((some) => mean(some.flatMap((it) => valueOf(it) ?? [])))
    return first === undefined || last === undefined ? [] : [words(first, last)]
  }
  return [
    ...sentence(
      ({ right }) => right,
      (first, last) =>
        `In the first ${compared} exercises ${Math.round(first)} of 100 points were on what was wrong; in the last ${compared} ${Math.round(last)}.`,
    ),
    ...sentence(
      (it) => (it.over === 'slip' ? undefined : it.lost),
      (first, last) =>
        `Lost against the plan in each: ${
          lostInWords(first) === lostInWords(last)
            ? `${lostInWords(first)}, at first and lately`
            : `${lostInWords(first)} at first, ${lostInWords(last)} lately`
        }.`,
    ),
  ]
}

const lostInWords = (lost: number): string => (lost < 0.75 ? 'nothing' : minutes(lost))

/** undefined of nothing */
const mean = (values: readonly number[]): number | undefined =>
  values.length === 0 ? undefined : values.reduce((sum, it) => sum + it, 0) / values.length
