/** The real application over an in-memory store and a clock that stands where the test puts it. */
import type { Express } from 'express'
import type { Knowledge } from '../../shared/knowledge.js'
import type { SomeFigures } from '../../shared/figures.js'
import { usualRecord } from '../../shared/figures.js'
import { createApp } from '../../server/wiring/app.js'
import type { CaseStore } from '../../server/cases/case-store.js'
import { openShopFigures } from '../../server/cases/shop-figures.js'
import type { Reach } from '../../server/diagnosis/plan/reach.js'
import { glance } from '../../server/diagnosis/plan/reach.js'
import { RulebookHolder } from '../../server/rulebook/live-rulebook.js'
import type { Register } from '../../server/register/register.js'
import type { CareLog } from '../../server/care/care-log.js'
import { openHabits } from '../../server/care/shop-habits.js'
import type { PartShelf } from '../../server/parts/part-shelf.js'
import type { ToolBook } from '../../server/tools/tool-book.js'
import type { PersonBook } from '../../server/people/person-book.js'
import { as } from '../../server/store/acting.js'
import { openStores } from '../../server/store/stores.js'
import { inUseOf, OPENED } from '../in-use.js'
import { tinyRulebook } from '../cases/tiny-rulebook.js'

export interface Bench {
  readonly app: Express
  readonly cases: CaseStore
  readonly register: Register
  readonly people: PersonBook
  readonly tools: ToolBook
  readonly care: CareLog
  readonly parts: PartShelf
  /** the rulebook it runs on, to be exchanged */
  readonly rulebook: RulebookHolder
  /** puts the clock on by so many minutes */
  wait(minutes: number): void
  close(): Promise<void>
}

export { OPENED }

/** One rulebook remembers the exercises of every bench over it, as of one server: their ids are given once. */
let nextKey = 10_000

export async function benchWith(
  options: {
    knowledge?: Knowledge
    /** pages and requests hang on no plan: their tests look one action ahead, unless told to look as the product does */
    far?: Reach
    figures?: SomeFigures
    cases?: Partial<CaseStore>
    /** does everybody sign in? */ people?: boolean
    trustProxy?: string
    file?: string
    zone?: string
  } = {},
): Promise<Bench> {
  const knowledge = options.knowledge ?? tinyRulebook
  let next = 0
  let now = Date.parse(OPENED)
  let nextSeed = 0
  const stores = await openStores({
    file: options.file ?? ':memory:',
    newId: () => `case${++next}`,
    newKey: () => `key${++nextKey}`,
  })
  const { register, tools, care, parts } = stores
  const habits = await openHabits(care, options.zone ?? 'Europe/London')
  const cases = { ...stores.cases, ...options.cases }
  const rulebook = new RulebookHolder(await inUseOf(knowledge, options.far ?? glance))
  const shop = await openShopFigures(cases)
  if (options.figures) await shop.keep({ ...usualRecord, figures: options.figures }, 0)
  const app = createApp({
    rulebook,
    cases,
    shop,
    register,
    tools,
    care,
    parts,
    habits,
    written: stores.written,
    now: () => new Date(now),
    newSeed: () => ++nextSeed,
    production: true,
    ...(options.people && { people: stores.people, as }),
    ...(options.trustProxy !== undefined && { trustProxy: options.trustProxy }),
    copies: stores.copies,
    exports: stores.exports,
    names: ['bench.local'],
  })
  return {
    app,
    people: stores.people,
    cases,
    register,
    tools,
    care,
    parts,
    rulebook,
    wait: (minutes) => void (now += minutes * 60_000),
    close: () => stores.close(),
  }
}
