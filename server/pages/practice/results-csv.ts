/** A class's exercises as a table for spreadsheets. */
import { csvOf } from '../layout/csv.js'
import { setOf } from '../../practice/hushed.js'
import { causeName } from './move-words.js'
import { endedWords, rightPoints } from './class-sets.js'
import type { ClassWork } from './class-work.js'
import { foundOf, slipIn } from './class-work.js'
import { kindName, levelName } from './found-words.js'
import type { Result } from '../../practice/result.js'

const resultColumns = [
  'learner',
  'class',
  'when',
  'kind',
  'level',
  'set or own',
  'number',
  'ended',
  'causes',
  'found',
  'minutes lost',
  'score',
  'points on the right one',
  'slips',
] as const

/** Between several causes or slips of one exercise. */
const between = '; '

/**
 * One row an exercise, by learner and then oldest first; those under way too, with nothing said of what is wrong.
 *
 * @param told results of which the causes may be named
 */
export function resultsCsv(work: ClassWork, told: readonly Result[]): string {
  const { knowledge, ofClass, learners, exercises, results } = work
  const resultOf = new Map(results.map((result) => [result.exercise, result]))
  const named = new Set(told.map(({ exercise }) => exercise))
  const rows = learners.flatMap(({ id, name }) =>
    exercises
      .filter(({ learner }) => learner === id)
      .reverse()
      .map((it) => {
        const { kind, level, outcome } = it
        const result = outcome ? resultOf.get(it.id) : undefined
        const about = [
          name,
          ofClass.name,
          it.changedAt,
          kindName(knowledge, kind),
          levelName(knowledge, level),
        ]
        const whose = it.setAs !== undefined ? 'set' : setOf(it) === undefined ? 'own' : 'set, once more'
        const own = [whose, String(it.seed)]
        if (!outcome || !result) return [...about, ...own, 'under way', '', '', '', '', '', '']
        return [
          ...about,
          ...own,
          endedWords(outcome),
          named.has(it.id)
            ? result.causes.map((cause) => causeName(knowledge, kind, cause)).join(between)
            : '',
          foundOf(result) >= 3 ? 'yes' : 'no',
          whole(outcome.lostMinutes),
          whole(outcome.score),
          result.spread ? String(rightPoints(result)) : '',
          result.slips.map((slip) => slipIn(knowledge, kind, slip)?.name ?? slip).join(between),
        ]
      }),
  )
  return csvOf([resultColumns, ...rows])
}

/** Whole numbers, because a point between digits is a date in some spreadsheets; empty for what is not known yet. */
const whole = (value: number | null): string => (value === null ? '' : String(Math.round(value)))
