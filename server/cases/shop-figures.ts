import type { ShopRecord } from '../../shared/figures.js'
import { usualRecord } from '../../shared/figures.js'
import type { CaseStore } from './case-store.js'

/** The shop's own record at hand, and the way to change it for good. */
export interface ShopFigures {
  /** one object until another one is kept */
  readonly record: ShopRecord
  keep(record: ShopRecord): Promise<void>
}

/** The record of the store; the usual one while nobody has set any. */
export async function openShopFigures(store: Pick<CaseStore, 'shop' | 'keepShop'>): Promise<ShopFigures> {
  let record = (await store.shop()) ?? usualRecord
  return {
    get record() {
      return record
    },
    async keep(changed) {
      await store.keepShop(changed)
      record = changed
    },
  }
}
