/** The exercises that were set for a class, with everybody's try at each side by side. */
import type { Learner, ExerciseOutcome, SetExercise } from '../../../shared/practice.js'
import type { Result } from '../../practice/result.js'
import { pointsOn } from '../../practice/result.js'
import { counted, instantWords, listWords, minutes } from '../layout/words.js'
import { isHushed, setFor } from '../../practice/hushed.js'
import type { ClassWork } from './class-work.js'
import { attemptOf, foundOf, foundWords, stillToGo } from './class-work.js'
import { kindName, levelName } from './found-words.js'
import { causeName, endWords } from './move-words.js'
import { causeFields } from '../../forms/set-form.js'

interface SetTry {
  readonly name: string
  readonly ended: string
  /** these are empty until it is over */
  readonly found: string
  readonly lost: string
  readonly points: string
}

export interface SetView {
  readonly id: string
  readonly name: string
  readonly when: string
  readonly number: number
  /** to set it again, for this class or to alter */
  readonly again: string
  /** where it is closed for all; null once what was wrong is told */
  readonly close: string | null
  /** where it is removed; null once somebody has begun it */
  readonly remove: string | null
  /** the instructor's own words; null where drawn ones are told */
  readonly complaint: string | null
  readonly hidden: string | null
  readonly done: string
  /** what was wrong, or that it is not told yet */
  readonly wrong: string
  readonly tries: readonly SetTry[]
  /** names; empty where all have begun */
  readonly notBegun: readonly string[]
}

/** @param all names what was wrong although somebody still has it to do */
export function setView(work: ClassWork, set: SetExercise, all: boolean): SetView {
  const { knowledge, learners, ofClass } = work
  const toGo = stillToGo(work, set).length
  const its = setFor(set, learners, work.exercises)
  const told = all || !isHushed(set, work.learners, work.exercises)
  const { hideSuspects, hidePrices, complaint } = set.setting
  const hides = [...(hideSuspects ? ['suspects'] : []), ...(hidePrices ? ['prices'] : [])]
  return {
    id: set.id,
    name: `${kindName(knowledge, set.kind)}, ${levelName(knowledge, set.level)}`,
    when: instantWords(set.setAt),
    number: set.seed,
    again: `/practice/classes/${ofClass.id}/set?${sameAgain(set, told)}`,
    close:
      told && !all
        ? null
        : set.closedAt === undefined
          ? `/practice/classes/${ofClass.id}/set/${set.id}/close`
          : null,
    remove: work.exercises.some(({ setAs }) => setAs === set.id)
      ? null
      : `/practice/classes/${ofClass.id}/set/${set.id}/remove`,
    complaint: complaint ?? null,
    hidden: hides.length === 0 ? null : `Without ${listWords(hides)}.`,
    done:
      learners.length === 0
        ? 'Nobody is in the class yet.'
        : `${its.length - toGo} of ${its.length} have done it.`,
    wrong: wrongWords(work, set, told, toGo),
    tries: learners.flatMap((learner) => tryOf(work, set, learner) ?? []),
    notBegun: its.filter(({ id }) => !attemptOf(work, set.id, id)).map(({ name }) => name),
  }
}

/** All that was set; the causes only where they may be told. */
function sameAgain({ level, kind, seed, setting }: SetExercise, told: boolean): string {
  const { causes = [], complaint, hideSuspects, hidePrices } = setting
  const query = new URLSearchParams({ level, kind, seed: String(seed) })
  if (complaint !== undefined) query.set('complaint', complaint)
  if (hideSuspects) query.set('hideSuspects', 'yes')
  if (hidePrices) query.set('hidePrices', 'yes')
  if (told) causes.forEach((cause, k) => query.set(causeFields[k]!, cause))
  return query.toString()
}

function wrongWords(
  { knowledge, exercises, results }: ClassWork,
  set: SetExercise,
  told: boolean,
  toGo: number,
) {
  const tried = new Set(exercises.filter(({ setAs }) => setAs === set.id).map(({ id }) => id))
  const over = results.find(({ exercise }) => tried.has(exercise))
  if (!told) return `What was wrong is told when all have ended it, or when you close it: ${toGo} to go.`
  if (!over) return 'What was wrong is told here when somebody has ended it.'
  return `What was wrong: ${listWords(over.causes.map((id) => causeName(knowledge, set.kind, id)))}.`
}

const nothing = { found: '', lost: '', points: '' }

function tryOf(work: ClassWork, set: SetExercise, { id, name }: Learner): SetTry | undefined {
  const attempt = attemptOf(work, set.id, id)
  if (!attempt) return undefined
  const { outcome, moveCount } = attempt
  const result = work.results.find(({ exercise }) => exercise === attempt.id)
  if (!outcome || !result) return { name, ended: `at it, ${counted(moveCount, 'move')}`, ...nothing }
  return {
    name,
    ended: endedWords(outcome),
    found: foundWords(foundOf(result)),
    // what it would have cost to the end nobody knows of what a safety mistake ended
    lost: outcome.over === 'slip' ? '' : lostWords(outcome.lostMinutes),
    points: result.spread ? `${rightPoints(result)} of 100` : 'none',
  }
}

/** How an exercise ended, for whoever does not see the tool. */
export const endedWords = ({ over, mended }: Pick<ExerciseOutcome, 'over' | 'mended'>): string => {
  if (over === 'slip') return 'Ended by a safety mistake'
  if (over !== 'hand-back') return endWords[over].done
  return `${endWords[over].done}, ${mended ? 'running' : 'trouble still in it'}`
}

/** Points on all that was wrong: of several faults each counts for its part. In 0 to 100. */
export const rightPoints = (result: Result): number =>
  Math.round(result.causes.reduce((sum, cause) => sum + pointsOn(result, cause), 0) / result.causes.length)

const lostWords = (lost: number | null): string =>
  lost === null ? 'being worked out' : lost < 0.75 ? 'nothing' : minutes(lost)
