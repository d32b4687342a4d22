import type { Knowledge } from '../../../shared/knowledge.js'
import type { CaseSummary } from '../../cases/case-store.js'
import type { Frame, Hang } from '../layout/frame.js'
import { plainFrame, hangOf } from '../layout/frame.js'

/** The front page: what is on the bench or away, and a tool that acts up. */
export interface StartPage {
  readonly frame: Frame
  /** ways to run, each a picture to tap */
  readonly powers: readonly { readonly href: string; readonly name: string; readonly drawing: string }[]
  /** tools on the bench, away or set aside, lately changed first */
  readonly open: readonly Hang[]
  /** those that the list has no room for */
  readonly moreOpen: readonly Hang[]
  readonly ended: readonly Hang[]
}

/** What stands unfolded: the pictures must stay in reach. */
const mostOpen = 3

export const powers = [
  { id: 'battery', name: 'Runs on a battery', drawing: 'on-battery' },
  { id: 'cord', name: 'Always on its cord', drawing: 'on-cord' },
] as const

export function startPage(knowledge: Knowledge, cases: readonly CaseSummary[]): StartPage {
  const hangs = cases.map((summary) => hangOf(knowledge, summary))
  const open = hangs.filter(({ stateId }) => stateId !== 'running-again')
  return {
    frame: plainFrame('Which tool acts up?'),
    powers: powers
      .filter(({ id }) => knowledge.kinds.some(({ runsOn }) => runsOn === id))
      .map(({ id, name, drawing }) => ({ href: `/new?on=${id}`, name, drawing })),
    open: open.slice(0, mostOpen),
    moreOpen: open.slice(mostOpen),
    ended: hangs.filter(({ stateId }) => stateId === 'running-again'),
  }
}
