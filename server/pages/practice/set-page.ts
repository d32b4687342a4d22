/** Setting an exercise for a class, on two small pages: how hard and which kind; then the rest. */
import { bookOf } from '../../../shared/book-of-kind.js'
import type { Kind, Knowledge, Level } from '../../../shared/knowledge.js'
import type { PracticeClass } from '../../../shared/practice.js'
import type { Problem, Sent } from '../../forms/answer-form.js'
import { textOf } from '../../forms/answer-form.js'
import type { Frame } from '../layout/frame.js'
import { plainFrame } from '../layout/frame.js'
import { anyKind, causeFields } from '../../forms/set-form.js'

interface Choice {
  readonly value: string
  readonly words: string
  readonly says: string | null
  readonly chosen: boolean
}

interface SetPageShell {
  readonly frame: Frame
  readonly className: string
  readonly home: string
  readonly action: string
  readonly problems: readonly Problem[]
}

export interface SetFirst extends SetPageShell {
  readonly first: {
    readonly levels: readonly Choice[]
    readonly kinds: readonly Choice[]
    readonly levelProblem: string | null
    readonly kindProblem: string | null
  }
  readonly rest: null
}

export interface SetRest extends SetPageShell {
  readonly first: null
  readonly rest: {
    readonly kind: { readonly id: string; readonly name: string }
    readonly level: { readonly id: string; readonly name: string; readonly says: string }
    readonly back: string
    readonly causes: readonly CauseField[]
    readonly complaint: { readonly value: string; readonly problem: string | null }
    readonly hideSuspects: boolean
    readonly hidePrices: boolean
    readonly seed: { readonly value: string; readonly problem: string | null; readonly open: boolean }
    readonly heard: Heard | null
  }
}

interface CauseField {
  readonly name: string
  readonly label: string
  readonly empty: string
  readonly problem: string | null
  readonly groups: readonly { readonly part: string; readonly causes: readonly Choice[] }[]
}

/** What the class hears first. */
interface Heard {
  /** the instructor's own words; null where the drawn ones are told */
  readonly own: string | null
  readonly drawn: readonly string[]
}

export type SetPage = SetFirst | SetRest

const shell = (ofClass: PracticeClass, title: string, problems: readonly Problem[]): SetPageShell => ({
  frame: plainFrame(`${problems.length > 0 ? 'Error: ' : ''}${title}`, 'practice'),
  className: ofClass.name,
  home: `/practice/classes/${ofClass.id}`,
  action: `/practice/classes/${ofClass.id}/set`,
  problems,
})

const messageAt = (problems: readonly Problem[], field: string): string | null =>
  problems.find((it) => it.field === field)?.message ?? null

export function setFirstPage(
  knowledge: Knowledge,
  ofClass: PracticeClass,
  sent: Sent = {},
  problems: readonly Problem[] = [],
): SetFirst {
  const chosen = { level: textOf(sent, 'level'), kind: textOf(sent, 'kind') }
  const byOrder = [...knowledge.levels].sort((a, b) => a.order - b.order)
  return {
    ...shell(ofClass, 'Set an exercise', problems),
    first: {
      levels: byOrder.map(({ id, name, says }) => ({
        value: id,
        words: name,
        says,
        chosen: id === chosen.level,
      })),
      kinds: [
        {
          value: anyKind,
          words: 'Whichever comes in, drawn by how usual each is',
          says: null,
          chosen: chosen.kind === anyKind,
        },
        ...knowledge.kinds.map(({ id, plainName }) => ({
          value: id,
          words: plainName,
          says: null,
          chosen: id === chosen.kind,
        })),
      ],
      levelProblem: messageAt(problems, 'level'),
      kindProblem: messageAt(problems, 'kind'),
    },
    rest: null,
  }
}

/** @param heard null where what was sent makes no exercise */
export function setRestPage(
  knowledge: Knowledge,
  ofClass: PracticeClass,
  about: { readonly level: Level; readonly kind: Kind },
  sent: Sent,
  heard: Heard | null,
  problems: readonly Problem[] = [],
): SetRest {
  const { level, kind } = about
  const page = shell(ofClass, 'Set an exercise', problems)
  const seedProblem = messageAt(problems, 'seed')
  return {
    ...page,
    first: null,
    rest: {
      kind: { id: kind.id, name: kind.plainName },
      level: { id: level.id, name: level.name, says: level.says },
      back: `${page.action}?level=${level.id}&kind=${kind.id}&change=yes`,
      causes: causeFields.map((name, k) => ({
        name,
        label: k === 0 ? 'What is wrong with it' : 'And also',
        empty: k === 0 ? 'Drawn, as the level has it' : 'Nothing more',
        problem: messageAt(problems, name),
        groups: groupsOf(knowledge, kind, textOf(sent, name)),
      })),
      complaint: { value: textOf(sent, 'complaint'), problem: messageAt(problems, 'complaint') },
      hideSuspects: textOf(sent, 'hideSuspects') === 'yes',
      hidePrices: textOf(sent, 'hidePrices') === 'yes',
      seed: { value: textOf(sent, 'seed'), problem: seedProblem, open: seedProblem !== null },
      heard,
    },
  }
}

/** Causes under the part that they sit in, parts as the kind has them. */
function groupsOf(knowledge: Knowledge, kind: Kind, chosen: string): CauseField['groups'] {
  const { causes } = bookOf(knowledge, kind.id)
  return kind.parts
    .map(({ id, name }) => ({
      part: name,
      causes: causes
        .filter(({ part }) => part === id)
        .map((cause) => ({ value: cause.id, words: cause.name, says: null, chosen: cause.id === chosen })),
    }))
    .filter((group) => group.causes.length > 0)
}
