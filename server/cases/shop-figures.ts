import type { ShopRecord } from '../../shared/figures.js'
import { usualRecord } from '../../shared/figures.js'
import type { CaseStore } from './case-store.js'

/** The shop's own record at hand, and the way to change it for good. */
export interface ShopFigures {
  /** one object until another one is kept */
  readonly record: ShopRecord
  /** how often it was kept; 0 for the usual one */
  readonly version: number
  /** Looks whether another program has changed it. */
  fresh(): Promise<void>
  /**
   * @param seen the version that the change was made for
   * @throws StaleShop where it was changed since; the record at hand is then the one of today
   */
  keep(record: ShopRecord, seen: number): Promise<void>
}

/** The record of the store; the usual one while nobody has set any. */
export async function openShopFigures(store: Pick<CaseStore, 'shop' | 'keepShop'>): Promise<ShopFigures> {
  const usual = { record: usualRecord, version: 0 }
  let now = (await store.shop()) ?? usual
  const fresh = async (): Promise<void> => {
    const there = (await store.shop()) ?? usual
    if (there.version !== now.version) now = there
  }
  return {
    get record() {
      return now.record
    },
    get version() {
      return now.version
    },
    fresh,
    async keep(record, seen) {
      try {
        await store.keepShop(record, seen)
      } catch (error) {
        await fresh()
        throw error
      }
      now = { record, version: seen + 1 }
    },
  }
}
