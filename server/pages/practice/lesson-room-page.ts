/** A lesson as its instructor leads it: which part it is in and how long, who is where, and the one button that goes on. */
import type { Knowledge } from '../../../shared/knowledge.js'
import type { ClassDoor, ExerciseSummary, Learner, Lesson, PracticeClass } from '../../../shared/practice.js'
import { lessonParts } from '../../../shared/practice.js'
import { goesOn, roundOf, triedBy } from '../../practice/lesson-round.js'
import { setFor, setOf } from '../../practice/hushed.js'
import { resultsOf } from '../../practice/kept-results.js'
import { mixUpsIn } from '../../practice/mixed-up.js'
import { kindsOf } from '../../practice/level-book.js'
import type { Frame } from '../layout/frame.js'
import { plainFrame } from '../layout/frame.js'
import { causeInWords, kindName, levelName } from './found-words.js'
import { counted } from '../layout/words.js'

export interface LessonRoomPage {
  readonly frame: Frame
  readonly className: string
  readonly action: string
  readonly door: ClassDoor
  readonly address: string
  readonly wall: string
  readonly home: string
  /** null while none goes on: then it can be started */
  readonly on: {
    readonly seen: number
    readonly about: string
    readonly name: string
    readonly says: string
    /** what comes in, in quotes: for the instructor to say */
    readonly coming: readonly string[]
    readonly clock: string
    readonly late: boolean
    readonly next: string
    readonly ended: string
    readonly people: readonly { readonly name: string; readonly state: string; readonly stuck: boolean }[]
  } | null
  readonly levels: readonly { readonly id: string; readonly name: string; readonly chosen: boolean }[]
  readonly kinds: readonly { readonly id: string; readonly name: string; readonly chosen: boolean }[]
  /** what this class takes for one another most: the next lesson is about it; empty where nothing stands out */
  readonly mixedUp: string
}

export interface LessonAtHand {
  readonly knowledge: Knowledge
  readonly ofClass: PracticeClass
  readonly door: ClassDoor
  readonly lesson: Lesson | null
  readonly learners: readonly Learner[]
  readonly exercises: readonly ExerciseSummary[]
  /** what the tool to come is said to do; empty once it is given out */
  readonly coming: readonly string[]
  /** ids of set exercises of which the fault is kept back */
  readonly hushed: ReadonlySet<string>
  readonly origin: string
  /** ISO 8601, UTC */
  readonly now: string
}

type PartId = Lesson['parts'][number]['id']
export const partWords: Readonly<Record<PartId, { name: string; says: string; next: string }>> = {
  brief: { name: 'Brief', says: 'All join. Say what comes in, and danger first.', next: 'Give out the tool' },
  play: { name: 'Play', says: 'Everybody has the same tool.', next: 'Close for all and talk' },
  talk: {
    name: 'Talk',
    says: 'The wall shows what all did. What would you do first?',
    next: 'One more tool',
  },
  again: {
    name: 'Again',
    says: 'A tool that is easily taken for the first.',
    next: 'Close and end the lesson',
  },
  over: { name: 'Over', says: '', next: '' },
}
/** Minutes without a move after which somebody counts as stuck. */
const stuckAfter = 2

export function lessonRoomPage(at: LessonAtHand): LessonRoomPage {
  const { knowledge, ofClass, door, lesson } = at
  const home = `/practice/classes/${ofClass.id}`
  const [first] = knowledge.levels
  const told = at.exercises.filter((it) => !at.hushed.has(setOf(it) ?? ''))
  const [mixUp] = mixUpsIn(resultsOf(told, knowledge.moved))
  return {
    frame: plainFrame(`Lesson: ${ofClass.name}`, 'practice'),
    className: ofClass.name,
    action: `${home}/lesson`,
    door,
    address: `${at.origin}/join`,
    wall: `${home}/wall`,
    home,
    on: goesOn(lesson) ? onNow(at, lesson) : null,
    levels: knowledge.levels.map((it) => ({ id: it.id, name: it.name, chosen: it === first })),
    kinds: (first
      ? kindsOf(knowledge, knowledge.levels.find(({ kinds }) => kinds === 'all') ?? first)
      : []
    ).map((id) => ({ id, name: kindName(knowledge, id), chosen: id === mixUp?.kind })),
    mixedUp: mixUp
      ? `This class takes ${causeInWords(knowledge, mixUp.kind, mixUp.cause)} for ${causeInWords(knowledge, mixUp.kind, mixUp.other)}: both tools will be about that.`
      : '',
  }
}

function onNow(at: LessonAtHand, lesson: Lesson): NonNullable<LessonRoomPage['on']> {
  const { knowledge, learners, now } = at
  const part = lesson.parts.at(-1)!
  const words = partWords[part.id]
  const whole = lessonParts.find(({ id }) => id === part.id)!.minutes
  const gone = minutesBetween(part.at, now)
  const left = Math.ceil(whole - gone)
  const set = roundOf(lesson)
  const setAt = lesson.parts.findLast(({ id }) => id === 'play' || id === 'again')?.at
  const own = at.exercises.filter(({ setAs }) => set !== undefined && setAs === set)
  return {
    seen: lesson.parts.length,
    about: `${kindName(knowledge, lesson.kind)}, ${levelName(knowledge, lesson.level)}`,
    name: words.name,
    says: words.says,
    coming: at.coming.map((it) => `“${it}”`),
    clock: left > 0 ? `${counted(left, 'minute')} left of ${whole}` : `${counted(-left, 'minute')} over`,
    late: left < 0,
    next: words.next,
    ended:
      set === undefined || setAt === undefined
        ? ''
        : `${own.filter(({ outcome }) => outcome !== null).length} of ${setFor({ id: set, setAt }, learners, own).length} ended`,
    people: learners
      .map((it) =>
        set === undefined
          ? { name: it.name, state: isHere(at, lesson, it) ? 'here' : 'not yet', stuck: false }
          : personAt(it, triedBy(at.exercises, set, it.id), now),
      )
      .sort((a, b) => Number(b.stuck) - Number(a.stuck)),
  }
}

/** Whose phone joined, or who did something since it began; being on the list is no sign of either. */
const isHere = ({ exercises }: LessonAtHand, { joined = [], startedAt }: Lesson, { id }: Learner): boolean =>
  joined.includes(id) ||
  exercises.some(
    ({ learner, setting, changedAt }) =>
      (learner === id || setting.with === id) && Date.parse(changedAt) >= Date.parse(startedAt),
  )

function personAt({ name }: Learner, own: ExerciseSummary | undefined, now: string) {
  if (!own) return { name, state: 'not begun', stuck: false }
  if (own.outcome)
    return { name, state: own.outcome.over === 'slip' ? 'ended: safety mistake' : 'ended', stuck: false }
  const idle = Math.floor(minutesBetween(own.changedAt, now))
  const stuck = idle >= stuckAfter
  return {
    name,
    state: stuck ? `no move for ${counted(idle, 'minute')}` : counted(own.moveCount, 'move'),
    stuck,
  }
}

const minutesBetween = (from: string, to: string): number => (Date.parse(to) - Date.parse(from)) / 60_000
