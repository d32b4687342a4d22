/** Each learner of a class as a row: what hurts first, then how it goes. */
import type { Learner } from '../../../shared/practice.js'
import type { Result } from '../../practice/result.js'
import { minutes, timesWords } from '../layout/words.js'
import type { ClassWork } from './class-work.js'
import { mixUpsIn } from '../../practice/mixed-up.js'
import { foundOf, lately, slipIn } from './class-work.js'
import { causeInWords } from './found-words.js'
import { agoWords } from './day-words.js'
import { causeName } from './move-words.js'

export interface LearnerRow {
  readonly id: string
  readonly name: string
  readonly record: string
  readonly skills: string
  /** by name, with how often; empty where none was made */
  readonly slips: readonly { readonly name: string; readonly times: string | null; readonly ends: boolean }[]
  readonly done: string
  /** after the count, where no column names it */
  readonly doneNoun: string
  /** these are empty where there is nothing to tell yet */
  readonly found: string
  readonly lost: string
  readonly mixUp: string
  readonly last: string
  readonly atIt: boolean
}

/** Exercises that "lately" stands for, for one person. */
export const latelyOfOne = 10

/** @param told results of which the causes may be named */
export function learnerRow(
  { knowledge, ofClass, exercises, results }: ClassWork,
  told: readonly Result[],
  { id, name }: Learner,
  now: string,
): LearnerRow {
  const own = exercises.filter(({ learner }) => learner === id)
  const over = results.filter(({ learner }) => learner === id)
  const recent = lately(over, latelyOfOne)
  const underWay = own.filter(({ outcome }) => outcome === null).length
  const [mixUp] = mixUpsIn(told.filter(({ learner }) => learner === id))
  const [latest] = own
  return {
    id,
    name,
    record: `/practice/people/${id}/record`,
    skills: `/practice/classes/${ofClass.id}/people/${id}/skills`,
    slips: slipsIn(recent).map(({ slip, kind, times }) => ({
      name: slipIn(knowledge, kind, slip)?.name ?? 'a slip no longer in the rulebook',
      times: times > 1 ? timesWords(times) : null,
      ends: slipIn(knowledge, kind, slip)?.grade === 'ends',
    })),
    done: underWay === 0 && over.length === 0 ? 'none yet' : String(over.length),
    doneNoun: over.length === 0 && underWay === 0 ? '' : over.length === 1 ? ' exercise' : ' exercises',
    found: over.length === 0 ? '' : `${over.filter((it) => foundOf(it) >= 3).length} of ${over.length}`,
    lost: lostWords(
      own.flatMap(({ outcome }) => (outcome && outcome.over !== 'slip' ? [outcome.lostMinutes] : [])),
    ),
    mixUp: mixUp
      ? `${causeName(knowledge, mixUp.kind, mixUp.cause)} taken for ${causeInWords(knowledge, mixUp.kind, mixUp.other)}`
      : '',
    last: underWay > 0 ? 'at one now' : latest ? agoWords(latest.changedAt, now) : '',
    atIt: underWay > 0,
  }
}

/** By slip and kind, those that ended an exercise too; the oftenest first. */
export function slipsIn(
  results: readonly Result[],
): { readonly slip: string; readonly kind: string; readonly times: number; readonly by: number }[] {
  const seen = new Map<string, { slip: string; kind: string; times: number; who: Set<string> }>()
  for (const { kind, learner, slips } of results)
    for (const slip of new Set(slips)) {
      const it = seen.get(slip) ?? { slip, kind, times: 0, who: new Set<string>() }
      seen.set(slip, it)
      it.times++
      it.who.add(learner)
    }
  return [...seen.values()]
    .map(({ slip, kind, times, who }) => ({ slip, kind, times, by: who.size }))
    .sort((a, b) => b.times - a.times)
}

/** "about 6 minutes each", of the latest; first the latest. Empty where nothing has ended. */
function lostWords(lost: readonly (number | null)[]): string {
  const known = lost.slice(0, latelyOfOne).flatMap((it) => it ?? [])
  if (known.length === 0) return lost.length === 0 ? '' : 'being worked out'
  const mean = known.reduce((sum, it) => sum + it, 0) / known.length
  return mean < 0.75 ? 'hardly a minute' : known.length === 1 ? minutes(mean) : `${minutes(mean)} each`
}

/** "3 people", "one person". */
export const peopleWords = (count: number): string => (count === 1 ? 'one person' : `${count} people`)
