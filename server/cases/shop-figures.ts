import type { ShopSettings } from '../../shared/situation.js'
import type { CaseStore } from './case-store.js'

/** The shop's figures at hand, and the way to change them for good. */
export interface ShopFigures {
  readonly now: ShopSettings
  keep(figures: ShopSettings): Promise<void>
}

/** @param otherwise the figures while nobody has set any */
export async function openShopFigures(
  store: Pick<CaseStore, 'shop' | 'keepShop'>,
  otherwise: ShopSettings,
): Promise<ShopFigures> {
  let now = (await store.shop()) ?? otherwise
  return {
    get now() {
      return now
    },
    async keep(figures) {
      await store.keepShop(figures)
      now = figures
    },
  }
}
