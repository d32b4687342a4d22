/** The real application over an in-memory store and a clock that stands where the test puts it. */
import type { Express } from 'express'
import type { Knowledge } from '../../shared/knowledge.js'
import type { SomeFigures } from '../../shared/figures.js'
import { usualRecord } from '../../shared/figures.js'
import { createApp } from '../../server/app.js'
import type { CaseStore } from '../../server/cases/case-store.js'
import { openShopFigures } from '../../server/cases/shop-figures.js'
import { openCaseStore } from '../../server/cases/sqlite-case-store.js'
import { RulebookHolder, rulebookInUse } from '../../server/live-rulebook.js'
import { tinyRulebook } from '../cases/tiny-rulebook.js'

export interface Bench {
  readonly app: Express
  readonly cases: CaseStore
  /** the rulebook it runs on, to be exchanged */
  readonly rulebook: RulebookHolder
  /** puts the clock on by so many minutes */
  wait(minutes: number): void
}

export const OPENED = '2026-03-02T09:00:00.000Z'

export async function benchWith(
  options: { knowledge?: Knowledge; figures?: SomeFigures; cases?: Partial<CaseStore> } = {},
): Promise<Bench> {
  const knowledge = options.knowledge ?? tinyRulebook
  let next = 0
  let now = Date.parse(OPENED)
  const stored = await openCaseStore({
    file: ':memory:',
    newId: () => `case${++next}`,
  })
  const cases = { ...stored, ...options.cases }
  const rulebook = new RulebookHolder(await rulebookInUse(knowledge, new Date(now)))
  const shop = await openShopFigures(cases)
  if (options.figures) await shop.keep({ ...usualRecord, figures: options.figures })
  const app = createApp({
    rulebook,
    cases,
    shop,
    now: () => new Date(now),
    production: true,
  })
  return { app, cases, rulebook, wait: (minutes) => void (now += minutes * 60_000) }
}
