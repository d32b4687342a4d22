import type { Knowledge, Level } from '../../../shared/knowledge.js'
import type { ExerciseSummary, Learner, PracticeClass, SetExercise } from '../../../shared/practice.js'
import { setOf } from '../../practice/hushed.js'
import { comingBack } from '../../practice/coming-back.js'
import { inTime } from '../../practice/items.js'
import { safeDays } from '../../practice/safe-days.js'
import { resultsOf } from '../../practice/kept-results.js'
import { kindsOf } from '../../practice/level-book.js'
import type { Result } from '../../practice/result.js'
import { stepUp } from '../../practice/step-up.js'
import type { Suggestion } from '../../practice/what-next.js'
import { whatNext } from '../../practice/what-next.js'
import type { Frame } from '../layout/frame.js'
import { plainFrame } from '../layout/frame.js'
import { counted, instantWords } from '../layout/words.js'
import { agoWords } from './day-words.js'
import { foundWords, kindName, levelName, lostWords } from './found-words.js'
import { lessonHref } from './lesson-links.js'
import type { Carried } from './lesson-name.js'
import { lessonName } from './lesson-name.js'

/** A learner's own start: one main act, and the others. */
export interface LearnerPage {
  readonly frame: Frame
  readonly learner: string
  /** of who is at the same phone; empty where nobody is */
  readonly beside: string
  readonly name: string
  readonly className: string
  /** which of the acts below is the one to begin with */
  readonly main: 'lesson' | 'under-way' | 'set' | 'guided' | 'next' | 'none'
  /** the exercise after a lesson that somebody comes from */
  readonly lesson: { readonly name: string; readonly fields: Carried } | null
  /** lately touched first */
  readonly underWay: readonly {
    readonly href: string
    readonly name: string
    readonly says: string
  }[]
  readonly set: readonly {
    readonly id: string
    readonly name: string
    readonly says: string
    readonly complaint: string
  }[]
  readonly next: { readonly level: string; readonly levelName: string; readonly why: string } | null
  /** the level of a first exercise in which each move is shown; null once something was finished */
  readonly guided: string | null
  /** "3 due, about 15 minutes." */
  readonly due: string
  /** days in a row without a safety mistake; empty where there is none */
  readonly safe: string
  readonly stepUp: { readonly id: string; readonly name: string; readonly says: string } | null
  readonly levels: readonly {
    readonly id: string
    readonly name: string
    readonly says: string
    readonly isUsual: boolean
    /** beside the usual one's name; empty beside the others */
    readonly note: string
    readonly kinds: readonly { readonly id: string; readonly name: string }[]
    /** there is more than one kind, so "any" is a choice of its own */
    readonly any: boolean
  }[]
  /** ended, but its debrief waits for others */
  readonly waiting: readonly { readonly href: string; readonly name: string }[]
  readonly last: readonly {
    readonly href: string
    readonly found: string
    readonly says: string
  }[]
  readonly recordHref: string
  readonly skillsHref: string
  readonly lessonsHref: string
}

export interface LearnerAtHand {
  readonly knowledge: Knowledge
  readonly learner: Learner
  /** at the same phone */
  readonly beside: Learner | undefined
  readonly ofClass: PracticeClass
  /** all of the learner's, lately changed first */
  readonly exercises: readonly ExerciseSummary[]
  /** the class's, latest first */
  readonly set: readonly SetExercise[]
  /** what one takes this learner */
  readonly minutesEach: number
  /** ids of set exercises of which the fault is kept back */
  readonly hushed: ReadonlySet<string>
  /** ISO 8601, UTC */
  readonly now: string
}

/** Results that are shown. */
const mostLast = 3

/** Says why, never what: the cause is for the learner to find. */
const reasons: Readonly<Record<Suggestion['why'], string>> = {
  due: 'One that you have not met for a while.',
  'mixed-up': 'One that you mixed up with another.',
  new: 'A new one.',
  weakest: 'Nothing is due: the one that you are least sure of.',
}

export function learnerPage(at: LearnerAtHand, carried: Carried | null = null): LearnerPage {
  const { knowledge, learner, ofClass, exercises, set, now } = at
  const told = exercises.filter((it) => !at.hushed.has(setOf(it) ?? ''))
  const results = resultsOf(told, knowledge.moved)
  const level = levelChosenLast(at)
  const begun = new Set(exercises.map(({ setAs }) => setAs))
  const toDo = set.filter(({ id, closedAt }) => closedAt === undefined && !begun.has(id))
  const closed = new Set(set.flatMap(({ id, closedAt }) => (closedAt === undefined ? [] : [id])))
  const underWay = exercises.filter((it) => it.outcome === null && !closed.has(setOf(it) ?? ''))
  const today = (folder: string, id: string) => knowledge.moved[folder]?.[id] ?? id
  const isFirst = exercises.every((it) => setOf(it) !== undefined || it.setting.guided === true)
  const lesson = carried && { name: lessonName(knowledge, carried), fields: carried }
  const next = level ? nextOf(knowledge, level, results, now) : null
  const guided = exercises.every(({ outcome }) => outcome === null) ? (knowledge.levels[0]?.id ?? null) : null
  const up = level && stepUp(knowledge, level, results)
  const at0 = `/practice/people/${learner.id}`
  return {
    frame: plainFrame(`${learner.name}: practice`, 'practice'),
    learner: learner.id,
    beside: at.beside?.id ?? '',
    name: at.beside ? `${learner.name} and ${at.beside.name}` : learner.name,
    className: ofClass.name,
    main: lesson
      ? 'lesson'
      : underWay.length > 0
        ? 'under-way'
        : toDo.length > 0
          ? 'set'
          : guided !== null
            ? 'guided'
            : next
              ? 'next'
              : 'none',
    guided,
    due: dueWords(results, at.minutesEach, now),
    safe: safeWords(safeDays(results)),
    lesson,
    underWay: underWay.map((it) => ({
      href: `/practice/exercises/${it.id}`,
      name: kindName(knowledge, today('kinds', it.kind)),
      says: [
        levelName(knowledge, today('levels', it.level)),
        ...(setOf(it) === undefined ? [] : ['set by the instructor']),
        it.moveCount === 0 ? 'no move made yet' : counted(it.moveCount, 'move'),
        `begun ${instantWords(it.begunAt)}`,
      ].join(', '),
    })),
    set: toDo.map((it) => ({
      id: it.id,
      name: kindName(knowledge, today('kinds', it.kind)),
      says: [
        levelName(knowledge, today('levels', it.level)),
        ...(it.setting.hideSuspects ? ['without the list of suspects'] : []),
        ...(it.setting.hidePrices ? ['without prices'] : []),
        `set ${agoWords(it.setAt, now)}`,
      ].join(', '),
      complaint: it.setting.complaint ?? '',
    })),
    next,
    stepUp: up ? { id: up.id, name: up.name, says: up.says } : null,
    levels: knowledge.levels.map((it) => {
      const kinds = kindsOf(knowledge, it).map((id) => ({ id, name: kindName(knowledge, id) }))
      return {
        id: it.id,
        name: it.name,
        says: it.says,
        isUsual: it === level,
        note: it === level ? (isFirst ? 'to begin with' : 'yours lately') : '',
        kinds,
        any: kinds.length > 1,
      }
    }),
    waiting: exercises
      .filter((it) => it.outcome !== null && at.hushed.has(setOf(it) ?? ''))
      .map((it) => ({
        href: `/practice/exercises/${it.id}/debrief`,
        name: kindName(knowledge, today('kinds', it.kind)),
      })),
    last: lastOf(at, results),
    recordHref: `${at0}/record`,
    skillsHref: `${at0}/skills`,
    lessonsHref: lessonHref('', { learner: learner.id }),
  }
}

/** Which of them it is, nobody is told: the next exercise would be given away. */
function dueWords(results: readonly Result[], each: number, now: string): string {
  const back = comingBack(results, now)
  const due = back.filter(({ isDue }) => isDue).length
  if (due > 0) return `${due} due, about ${counted(due * each, 'minute')}.`
  const [first] = back
  if (!first) return ''
  const days = Math.ceil((Date.parse(first.due) - Date.parse(now)) / 86_400_000)
  return `Nothing is due for ${days <= 1 ? 'a day' : `${days} days`}. One takes about ${counted(each, 'minute')}.`
}

const safeWords = (days: number): string =>
  days === 0
    ? ''
    : days === 1
      ? 'No safety mistake on your last day of practice.'
      : `No safety mistake on your last ${days} days of practice.`

/** Of the exercise begun last, where the learner chose it and the rulebook still has it; else the first. */
function levelChosenLast({ knowledge, exercises }: LearnerAtHand): Level | undefined {
  const own = exercises.filter((it) => setOf(it) === undefined && it.setting.guided !== true)
  const last = own.reduce<ExerciseSummary | undefined>(
    (latest, it) => (latest && latest.begunAt >= it.begunAt ? latest : it),
    undefined,
  )
  const id = last && (knowledge.moved['levels']?.[last.level] ?? last.level)
  return knowledge.levels.find((it) => it.id === id) ?? knowledge.levels[0]
}

function nextOf(
  knowledge: Knowledge,
  level: Level,
  results: readonly Result[],
  now: string,
): LearnerPage['next'] {
  try {
    const { why } = whatNext(knowledge, level, results, now)
    return { level: level.id, levelName: level.name, why: reasons[why] }
  } catch (error) {
    // a rulebook of somebody's own, so small that the only cause of the level was just there
    if (error instanceof RangeError) return null
    throw error
  }
}

function lastOf(
  { knowledge, exercises, now }: LearnerAtHand,
  results: readonly Result[],
): LearnerPage['last'] {
  return inTime(results)
    .slice(-mostLast)
    .reverse()
    .map((it) => {
      const outcome = exercises.find(({ id }) => id === it.exercise)?.outcome
      return {
        href: `/practice/exercises/${it.exercise}/debrief`,
        found: foundWords(knowledge, it),
        says: [
          kindName(knowledge, it.kind),
          it.over === 'slip' ? 'stopped by a slip' : lostWords(outcome?.lostMinutes ?? null),
          agoWords(it.at, now),
        ].join(', '),
      }
    })
}
