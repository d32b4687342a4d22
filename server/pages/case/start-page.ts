import type { Knowledge } from '../../../shared/knowledge.js'
import type { Tool } from '../../../shared/tool.js'
import type { DueCare } from '../../care/due.js'
import type { CaseSummary } from '../../cases/case-store.js'
import type { Frame, Hang } from '../layout/frame.js'
import { plainFrame, hangOf } from '../layout/frame.js'
import { counted, minutes } from '../layout/words.js'

/** The front page: what is on the bench or away, and a tool that acts up. */
export interface StartPage {
  readonly frame: Frame
  /** ways to run, each a picture to tap */
  readonly powers: readonly { readonly href: string; readonly name: string; readonly drawing: string }[]
  /** "5 care jobs due, about 12 minutes"; null where none is */
  readonly care: string | null
  /** the shop's tools that are at hand, each to tap when it acts up */
  readonly ours: readonly { readonly action: string; readonly name: string }[]
  /** those that the board has no room for */
  readonly moreOurs: StartPage['ours']
  /** tools on the bench, away or set aside, lately changed first */
  readonly open: readonly Hang[]
  /** those that the list has no room for */
  readonly moreOpen: readonly Hang[]
  readonly ended: readonly Hang[]
  /** how many cases there are; null where all of them are on the page */
  readonly all: number | null
}

/** What stands unfolded: the pictures must stay in reach. */
const mostOpen = 2
const mostOurs = 6

export const powers = [
  { id: 'battery', name: 'Runs on a battery', drawing: 'on-battery' },
  { id: 'cord', name: 'Always on its cord', drawing: 'on-cord' },
] as const

/**
 * @param all   how many cases there are, shown or not
 * @param stops by case: the stop that stands
 */
export function startPage(
  knowledge: Knowledge,
  cases: readonly CaseSummary[],
  all: number,
  tools: readonly Tool[] = [],
  due: readonly DueCare[] = [],
  stops: ReadonlyMap<string, string> = new Map(),
): StartPage {
  const ours = tools
    .filter(({ place }) => place === 'in-use' || place === 'spare')
    .map(({ id, name }) => ({ action: `/tools/${id}/case`, name }))
  const hangs = cases.map((summary) => hangOf(knowledge, summary, stops.get(summary.id)))
  const inHand = hangs.filter(({ stateId }) => stateId !== 'running-again')
  const open = [...inHand.filter(({ stop }) => stop), ...inHand.filter(({ stop }) => !stop)]
  return {
    frame: plainFrame('Which tool acts up?'),
    powers: powers
      .filter(({ id }) => knowledge.kinds.some(({ runsOn }) => runsOn === id))
      .map(({ id, name, drawing }) => ({ href: `/new?on=${id}`, name, drawing })),
    care: careWords(due),
    ours: ours.slice(0, mostOurs),
    moreOurs: ours.slice(mostOurs),
    open: open.slice(0, mostOpen),
    moreOpen: open.slice(mostOpen),
    ended: hangs.filter(({ stateId }) => stateId === 'running-again'),
    all: all > hangs.length ? all : null,
  }
}

function careWords(care: readonly DueCare[]): string | null {
  const due = care.filter(({ state }) => state === 'due' || state === 'overdue')
  if (due.length === 0) return null
  const long = minutes(due.reduce((sum, { task }) => sum + task.minutes, 0))
  return `Today’s care: ${counted(due.length, 'job')}, ${long}`
}
