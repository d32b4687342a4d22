/** A list of moves: one group, or all that fit a few words. */
import { bookOf } from '../../../shared/book-of-kind.js'
import { matchingAmong } from '../layout/find-by-words.js'
import type { Frame } from '../layout/frame.js'
import { plainFrame } from '../layout/frame.js'
import type { BenchMove, GroupId } from './bench-moves.js'
import { benchMoves, groupIds, standsWords } from './bench-moves.js'
import type { AtBench, NotMade } from './bench-page.js'
import { clockWords, exerciseHref, groupHref, groupNames, complaintOf } from './bench-page.js'

export interface PracticeMovesPage {
  readonly frame: Frame
  /** what the tool was brought in with */
  readonly complaint: string
  readonly title: string
  readonly notMade: NotMade | null
  readonly action: string
  /** where how a move is done is told, up to its key */
  readonly how: string
  readonly seen: number
  /** the group that is open; empty where a search is shown */
  readonly group: string
  readonly q: string
  readonly find: string
  readonly stands: string
  readonly clock: string
  readonly sections: readonly {
    /** empty where the list needs no parting */
    readonly heading: string
    readonly folded: boolean
    readonly count: string
    readonly moves: readonly BenchMove[]
  }[]
  readonly noMatch: boolean
  readonly others: readonly { readonly name: string; readonly href: string; readonly here: boolean }[]
  readonly back: string
}

/** Longer lists are parted by what they are about; much longer ones are folded too. */
const mostWhole = 12
const mostUnfolded = 24
/** Letters of a search that are looked at. */
const longestSearch = 200

export const groupFrom = (text: string): GroupId | undefined => groupIds.find((id) => id === text)

export async function practiceMovesPage(
  at: AtBench,
  { group, q: typed }: { readonly group: GroupId | undefined; readonly q: string },
  notMade: NotMade | null = null,
): Promise<PracticeMovesPage> {
  const { knowledge, played, showing } = at
  const { desk, now, exercise } = played
  const all = await benchMoves(knowledge, desk, now, showing)
  const q = typed.trim().slice(0, longestSearch)
  const found = q === '' ? [] : searched(all, q)
  const shown = q === '' ? all.filter((it) => it.group === group) : found
  const title = q === '' ? (group ? groupNames[group].name : 'Find a move') : `What fits “${q}”`
  const home = exerciseHref(exercise.id)
  return {
    frame: plainFrame(notMade ? `Error: ${notMade.heading}` : title, 'practice'),
    complaint: complaintOf(played).join(', '),
    title,
    notMade,
    action: `${home}/moves`,
    how: `${home}/how?move=`,
    seen: exercise.moves.length,
    group: q === '' ? (group ?? '') : '',
    q,
    find: `${home}/moves`,
    stands: standsWords(desk, now),
    clock: clockWords(at),
    sections: sectionsOf(at, shown, q !== ''),
    noMatch: q !== '' && found.length === 0,
    others: groupIds.map((id) => ({
      name: groupNames[id].name,
      href: groupHref(exercise.id, id),
      here: q === '' && id === group,
    })),
    back: home,
  }
}

function searched(all: readonly BenchMove[], q: string): BenchMove[] {
  const findable = all.map(({ key, name, find }) => ({
    id: key,
    statement: name,
    text: '',
    words: [...find],
  }))
  return matchingAmong(findable, q).flatMap((key) => all.find((it) => it.key === key) ?? [])
}

function sectionsOf(
  { knowledge, played }: AtBench,
  moves: readonly BenchMove[],
  whole: boolean,
): PracticeMovesPage['sections'] {
  if (moves.length === 0) return []
  if (whole || moves.length <= mostWhole) return [{ heading: '', folded: false, count: '', moves }]
  const [kind] = bookOf(knowledge, played.exercise.kind).kinds
  const parts = [...(kind?.parts ?? []), { id: '', name: 'The rest' }]
  const known = new Set(parts.map(({ id }) => id))
  return parts
    .map(({ id, name }) => ({
      heading: name,
      moves: moves.filter(({ part }) => (known.has(part) ? part : '') === id),
    }))
    .filter((section) => section.moves.length > 0)
    .map((section) => ({
      ...section,
      folded: moves.length > mostUnfolded,
      count: String(section.moves.length),
    }))
}
