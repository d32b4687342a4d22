/** What a whole class did with one tool, to be read from the last row. No names unless they are wanted. */
import type { Knowledge } from '../../../shared/knowledge.js'
import type { ClassDoor, ExerciseSummary, Learner, PracticeClass } from '../../../shared/practice.js'
import type { Desk } from '../../practice/desk.js'
import type { Frame } from '../layout/frame.js'
import { plainFrame } from '../layout/frame.js'
import { listWords } from '../layout/words.js'
import { causeName, moveAsAdvice, moveWords } from './move-words.js'

interface WallRow {
  readonly what: string
  readonly count: string
  readonly who: string
}

export interface WallPage {
  readonly frame: Frame
  readonly className: string
  readonly door: ClassDoor
  readonly address: string
  readonly heard: readonly string[]
  readonly ended: string
  /** what was wrong; empty while it is kept back */
  readonly was: string
  readonly columns: readonly { readonly heading: string; readonly rows: readonly WallRow[] }[]
  readonly names: { readonly href: string; readonly words: string }
}

export interface WallAtHand {
  readonly knowledge: Knowledge
  readonly ofClass: PracticeClass
  readonly door: ClassDoor
  readonly origin: string
  readonly learners: readonly Learner[]
  /** what the coming tool is said to do, while a lesson has given out none yet */
  readonly coming: readonly string[]
  /** of the tool that was set last, or null before any was */
  readonly round: {
    readonly desk: Desk
    readonly complaint: readonly string[]
    readonly tries: readonly ExerciseSummary[]
    /** how many it is for */
    readonly of: number
    readonly hushed: boolean
  } | null
  readonly names: boolean
}

/** Lines that can be read from the last row. */
const mostRows = 4

export function wallPage(at: WallAtHand): WallPage {
  const { knowledge, ofClass, door, origin, round, names } = at
  const here = `/practice/classes/${ofClass.id}/wall`
  const ended = round?.tries.filter(({ outcome }) => outcome !== null) ?? []
  return {
    frame: { ...plainFrame(`The wall: ${ofClass.name}`, 'practice'), wide: true },
    className: ofClass.name,
    door,
    address: `${origin}/join`,
    heard: (round?.complaint ?? at.coming).map((it) => `“${it}”`),
    ended: round ? `${ended.length} of ${round.of} have ended.` : '',
    was:
      round && !round.hushed
        ? listWords(
            round.desk.tool.causes.map((c) =>
              causeName(knowledge, round.desk.kind.model.kind.id, round.desk.kind.model.causes[c]!.id),
            ),
          )
        : '',
    columns: round && !round.hushed ? columnsOf(at, round.desk, ended) : [],
    names: names
      ? { href: here, words: 'Hide the names' }
      : { href: `${here}?names=yes`, words: 'Show the names' },
  }
}

type Kept = NonNullable<ExerciseSummary['outcome']>

function columnsOf(at: WallAtHand, desk: Desk, ended: readonly ExerciseSummary[]): WallPage['columns'] {
  const tries = ended.map(({ learner, outcome }) => ({
    who: at.learners.find(({ id }) => id === learner)?.name ?? '',
    outcome: outcome!,
  }))
  const kind = desk.kind.model.kind.id
  const counting = (of: (kept: Kept) => string | undefined): WallRow[] => {
    const groups = new Map<string, string[]>()
    for (const { who, outcome } of tries) {
      const what = of(outcome)
      if (what !== undefined) groups.set(what, [...(groups.get(what) ?? []), who])
    }
    return [...groups]
      .sort(([, a], [, b]) => b.length - a.length)
      .slice(0, mostRows)
      .map(([what, who]) => ({
        what,
        count: `${who.length} of ${tries.length}`,
        who: at.names ? who.join(', ') : '',
      }))
  }
  return [
    { heading: 'Done first', rows: counting(({ first }) => first && moveWords(desk, first)) },
    {
      heading: 'Most sure of',
      rows: counting(({ spread }) => {
        const most = Object.entries(spread?.points ?? {}).sort(([, a], [, b]) => b - a)[0]
        return most && causeName(at.knowledge, kind, most[0])
      }),
    },
    {
      heading: 'Where a good way goes on otherwise',
      rows: counting(
        ({ parted }) =>
          parted && `${moveWords(desk, parted.yours)}. Better: ${moveAsAdvice(desk, parted.plans)}`,
      ),
    },
  ].filter(({ rows }) => rows.length > 0)
}
