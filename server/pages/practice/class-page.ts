/** A class as its instructor sees it. */
import type { PracticeClass } from '../../../shared/practice.js'
import type { Problem, Sent } from '../../forms/answer-form.js'
import { textOf } from '../../forms/answer-form.js'
import type { Frame } from '../layout/frame.js'
import { plainFrame } from '../layout/frame.js'
import { latelyOfOne, learnerRow, peopleWords } from './class-learners.js'
import type { LearnerRow } from './class-learners.js'
import type { SetView } from './class-sets.js'
import { setView } from './class-sets.js'
import type { Teach } from './class-teach.js'
import { teachOf } from './class-teach.js'
import type { ClassWork } from './class-work.js'
import { tellable } from './class-work.js'
import { counted } from '../layout/words.js'
import { classLines } from './class-written.js'
import type { Written } from '../../../shared/person.js'

export interface ClassPage {
  readonly frame: Frame
  readonly name: string
  readonly notice: string | null
  readonly problems: readonly Problem[]
  readonly door: Door
  readonly actions: {
    readonly lesson: string
    readonly set: string
    readonly results: string
    readonly people: string
    /** null once somebody in it has practised */
    readonly remove: string | null
  }
  readonly who: string
  readonly rows: readonly LearnerRow[]
  readonly latelyOfOne: number
  readonly teach: Teach
  /** set exercises kept out of what the class mixes up, and the way to count them in; null where there are none */
  readonly kept: { readonly words: string; readonly href: string } | null
  readonly newest: SetView | null
  readonly older: readonly SetView[]
  readonly people: readonly PersonForm[]
  readonly peopleOpen: boolean
  /** who changed it, lately first */
  readonly written: readonly string[]
  readonly add: { readonly value: string; readonly problem: string | null }
}

/** The address that the class opens on its phones. */
interface Door {
  readonly address: string
  /** true where the address is one that only this machine knows */
  readonly hereOnly: boolean
}

interface PersonForm {
  readonly id: string
  readonly name: string
  readonly value: string
  readonly field: string
  readonly problem: string | null
  readonly classes: readonly { readonly id: string; readonly name: string; readonly chosen: boolean }[]
}

export interface ClassAsks {
  /** scheme and host as the request names them, such as `http://bench.local:3000` */
  readonly origin: string
  readonly classes: readonly PracticeClass[]
  /** name what was wrong in set exercises that somebody still has to do */
  readonly all: boolean
  readonly notice: string | null
  readonly written: readonly Written[]
  /** ISO 8601, UTC */
  readonly now: string
  /** what a refused form held */
  readonly refused?: { readonly sent: Sent; readonly problems: readonly Problem[] }
}

const mostOlder = 8

export function classPage(work: ClassWork, asks: ClassAsks): ClassPage {
  const { knowledge, ofClass, learners, sets, results } = work
  const { results: told, kept } = tellable(work, asks.all)
  const problems = asks.refused?.problems ?? []
  const home = `/practice/classes/${ofClass.id}`
  const [newest, ...older] = sets
  return {
    frame: {
      ...plainFrame(`${problems.length > 0 ? 'Error: ' : ''}${ofClass.name}`, 'practice'),
      wide: true,
    },
    name: ofClass.name,
    notice: asks.notice,
    problems,
    door: doorOf(asks.origin),
    actions: {
      lesson: `${home}/lesson`,
      set: `${home}/set`,
      results: `${home}/results.csv`,
      people: `${home}/people`,
      remove: work.exercises.length > 0 ? null : `${home}/remove`,
    },
    who: learners.length === 0 ? 'Nobody yet' : peopleWords(learners.length),
    rows: learners.map((learner) => learnerRow(work, told, learner, asks.now)),
    latelyOfOne,
    teach: teachOf(knowledge, results, told),
    kept:
      kept.length === 0
        ? null
        : {
            words: `${counted(kept.length, 'set exercise')} ${kept.length === 1 ? 'is' : 'are'} left out, so that nobody reads here what is still before them.`,
            href: `${home}?all=yes`,
          },
    newest: newest ? setView(work, newest, asks.all) : null,
    older: older.slice(0, mostOlder).map((set) => setView(work, set, asks.all)),
    people: learners.map((learner) => personForm(learner, asks)),
    peopleOpen: problems.some(({ field }) => field !== 'add'),
    written: classLines(work, asks.written),
    add: {
      value: textOf(asks.refused?.sent ?? {}, 'add'),
      problem: problems.find(({ field }) => field === 'add')?.message ?? null,
    },
  }
}

const loopback = /^(localhost|127\.\d+\.\d+\.\d+|\[::1\])$/

function doorOf(origin: string): Door {
  const address = `${origin}/practice`
  return { address, hereOnly: URL.canParse(address) && loopback.test(new URL(address).hostname) }
}

function personForm(
  { id, name, class: own }: ClassWork['learners'][number],
  { classes, refused }: ClassAsks,
): PersonForm {
  const field = `name-${id}`
  const problem = refused?.problems.find((it) => it.field === field)?.message ?? null
  const sent = problem !== null && refused ? refused.sent : null
  const chosen = sent ? textOf(sent, 'class') : own
  return {
    id,
    name,
    value: sent ? textOf(sent, 'name') : name,
    field,
    problem,
    classes: classes.map((it) => ({ id: it.id, name: it.name, chosen: it.id === chosen })),
  }
}
