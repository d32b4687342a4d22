/** All cases, a page at a time, to be searched. */
import { CaseState } from '../../../shared/case.js'
import type { Knowledge } from '../../../shared/knowledge.js'
import type { CaseSummary } from '../../cases/case-store.js'
import type { Frame, Hang } from '../layout/frame.js'
import { hangOf, plainFrame } from '../layout/frame.js'
import { stateWords } from '../layout/words.js'

export interface CasesPage {
  readonly frame: Frame
  readonly find: string
  readonly states: readonly { readonly value: string; readonly words: string; readonly chosen: boolean }[]
  readonly hangs: readonly Hang[]
  /** "31 to 60 of 212" */
  readonly counted: string
  readonly newer: string | null
  readonly older: string | null
}

/** What is looked for. */
export interface CaseWish {
  readonly find: string
  readonly states: readonly CaseState[]
  /** from 1 */
  readonly page: number
}

const most = 30

/** From the address; what makes no sense there counts as not said. */
export function caseListFrom(query: Readonly<Record<string, unknown>>): {
  readonly wish: CaseWish
  readonly most: number
} {
  const { find, state, page } = query
  const one = CaseState.safeParse(state)
  return {
    wish: {
      find: typeof find === 'string' ? find.trim().slice(0, 100) : '',
      states: one.success ? [one.data] : CaseState.options,
      page: typeof page === 'string' && /^[1-9]\d{0,4}$/.test(page) ? Number(page) : 1,
    },
    most,
  }
}

/** @param all how many fit the wish, on this page and others */
export function casesPage(
  knowledge: Knowledge,
  cases: readonly CaseSummary[],
  all: number,
  { find, states, page }: CaseWish,
): CasesPage {
  const chosen = states.length === 1 ? states[0]! : ''
  const first = (page - 1) * most + 1
  const at = (other: number): string =>
    `/cases?${new URLSearchParams({ ...(find && { find }), ...(chosen && { state: chosen }), page: String(other) }).toString()}`
  return {
    frame: plainFrame('All cases'),
    find,
    states: ['' as const, ...CaseState.options].map((state) => ({
      value: state,
      words: state === '' ? 'Any' : stateWords(state),
      chosen: state === chosen,
    })),
    hangs: cases.map((summary) => hangOf(knowledge, summary)),
    counted:
      cases.length === 0
        ? all === 0
          ? 'No case fits.'
          : `No more than ${all}.`
        : `${first} to ${first + cases.length - 1} of ${all}`,
    newer: page > 1 ? at(page - 1) : null,
    older: first + cases.length - 1 < all && cases.length > 0 ? at(page + 1) : null,
  }
}
