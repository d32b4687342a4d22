/** What the routes need. Made once in `serve.ts`; a test makes its own, with a clock and ids that it chooses. */
import type { CaseStore } from '../cases/case-store.js'
import { casesOfToday } from '../cases/moved-ids.js'
import type { DoSum } from '../remembered/heavy-sums.js'
import type { ShopFigures } from '../cases/shop-figures.js'
import type { PersonBook } from '../people/person-book.js'
import type { WrittenLog } from '../people/written-log.js'
import type { Register } from '../register/register.js'
import type { CareLog } from '../care/care-log.js'
import type { ShopHabits } from '../care/shop-habits.js'
import type { PartShelf } from '../parts/part-shelf.js'
import type { ToolBook } from '../tools/tool-book.js'
import type { KeptOut, LiveRulebook, RulebookInUse } from '../rulebook/live-rulebook.js'

/** A copy of everything, as it lies in the folder of copies. */
interface KeptCopy {
  readonly name: string
  readonly path: string
  readonly made: Date
  readonly bytes: number
}

export interface Deps {
  readonly rulebook: LiveRulebook
  readonly cases: CaseStore
  readonly shop: ShopFigures
  readonly register: Register
  readonly tools: ToolBook
  readonly care: CareLog
  readonly parts: PartShelf
  readonly habits: ShopHabits
  readonly written: WrittenLog
  readonly now: () => Date
  /** views and static files are kept in memory and cached by the browser when true */
  readonly production: boolean
  /** the number that fixes the draws of a new exercise: a whole one from 0 to 4 294 967 295 */
  readonly newSeed: () => number
  /** names, beside its addresses, under which it is asked for */
  readonly names?: readonly string[]
  /** the people who sign in; absent where nobody does */
  readonly people?: PersonBook
  /** where one database has several shops */
  readonly shopId?: string
  /** runs what follows in the name of a person */
  readonly as?: (person: string, work: () => void) => void
  /** the proxies whose word about address and encryption counts, as Express takes them; absent: nobody's */
  readonly trustProxy?: string
  /** copies of everything, latest first; null or absent where nothing lies in a file */
  readonly copies?: {
    readonly folder: string
    all(): readonly KeptCopy[]
    make(): Promise<KeptCopy>
  } | null
  /** everything as tables */
  readonly exports?: {
    tables(): Promise<readonly string[]>
    rows(table: string): Promise<readonly Readonly<Record<string, string | number | null>>[]>
  }
  /** does heavy sums on a thread of its own; absent: on the one that serves */
  readonly doSum?: DoSum
}

/** What one request works with: one rulebook from its first line to its last, whatever is taken over meanwhile. */
export interface AtHand extends RulebookInUse {
  /** cases in the ids of that rulebook */
  readonly cases: CaseStore
  readonly shop: ShopFigures
  readonly register: Register
  readonly tools: ToolBook
  readonly care: CareLog
  readonly parts: PartShelf
  readonly habits: ShopHabits
  readonly now: () => Date
  readonly newSeed: () => number
  /** does heavy sums; absent: on the thread that serves */
  readonly doSum?: DoSum
  /** why the rulebook on disk is not the one in use; null when it is */
  readonly keptOut: KeptOut | null
}

const ofRequests = new WeakMap<object, AtHand>()

/** The same for every call with one request. */
export function atHand(deps: Deps, request: object): AtHand {
  const known = ofRequests.get(request)
  if (known) return known
  const { rulebook, cases, shop, register, tools, care, parts, habits, now, newSeed } = deps
  const current = rulebook.current()
  const hand: AtHand = {
    ...current,
    cases: casesOfToday(cases, current.knowledge.moved),
    shop,
    register,
    tools,
    care,
    parts,
    habits,
    now,
    newSeed,
    ...(deps.doSum && { doSum: deps.doSum }),
    keptOut: rulebook.keptOut(),
  }
  ofRequests.set(request, hand)
  return hand
}
