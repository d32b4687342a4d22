/**
 * The one place where it is settled what a case is reckoned with: the figures at hand and whose word they are, whether
 * the body was opened, and the settings of the plan that follow from both. What the plan pays for an ending is therefore
 * what the comparison says of it, at every step.
 */
import type { BenchCase } from '../../shared/case.js'
import type { Currency, ShopRecord, SomeFigures } from '../../shared/figures.js'
import type { Knowledge } from '../../shared/knowledge.js'
import { onceFor } from '../../shared/once-for.js'
import type { ShopSettings, Situation } from '../../shared/situation.js'
import { ownFigures } from '../cases/case-figures.js'
import { situationFrom } from '../cases/fold.js'
import { openedBy, openedIn } from '../cases/opened.js'
import type { FiguresInForce } from '../decision/figures-of.js'
import { figuresInForce } from '../decision/figures-of.js'
import { settingsFrom } from '../decision/shop-settings.js'

export interface Reckoned {
  readonly situation: Situation
  readonly inForce: FiguresInForce
  /** what would hold had nothing been said in this case */
  readonly otherwise: FiguresInForce
  readonly currency: Currency
  /** has something that was done in this case opened the body? */
  readonly opened: boolean
  /** what the plan reckons with, in major units */
  readonly settings: ShopSettings
}

/** What follows from a case and a rulebook alone. */
interface Folded {
  readonly situation: Situation
  readonly own: SomeFigures
  readonly opened: boolean
  /** for the shop's record and the tool's of last time */
  last?: { readonly shop: ShopRecord; readonly tool: string; readonly reckoned: Reckoned }
}

const folding = onceFor((rulebook: Knowledge) =>
  onceFor((bench: BenchCase): Folded => ({
    situation: situationFrom(bench, rulebook),
    own: ownFigures(bench),
    opened: openedIn(bench, rulebook),
  })),
)

/**
 * What a case is reckoned with: what was said of it, the record of its tool, the shop's figures, in this order. The store hands out the same object until something is written, and so does this: for
 * one case, rulebook and record it is one object, worked out once.
 */
export function reckoned(
  bench: BenchCase,
  rulebook: Knowledge,
  shop: ShopRecord,
  tool: SomeFigures = {},
): Reckoned {
  const known = folding(rulebook)(bench)
  const ofTool = JSON.stringify(tool)
  if (known.last?.shop === shop && known.last.tool === ofTool) return known.last.reckoned
  const { situation, own, opened } = known
  const inForce = figuresInForce({ shop: shop.figures, tool, case: own })
  const otherwise = figuresInForce({ shop: shop.figures, tool })
  const { currency } = shop
  const settings = settingsFrom(inForce.figures, currency, opened)
  const fresh = { situation, inForce, otherwise, currency, opened, settings }
  known.last = { shop, tool: ofTool, reckoned: fresh }
  return fresh
}

/** The settings for a situation that is no case of the store: the shop's figures, and opened as far as it tells. */
export function settingsOf(situation: Situation, rulebook: Knowledge, shop: ShopRecord): ShopSettings {
  const { figures } = figuresInForce({ shop: shop.figures })
  return settingsFrom(figures, shop.currency, openedBy(situation, rulebook))
}
