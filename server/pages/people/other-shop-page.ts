/** Changing to another shop of the same database. */
import type { Problem } from '../../forms/answer-form.js'
import type { Frame } from '../layout/frame.js'
import { plainFrame } from '../layout/frame.js'

export interface OtherShopPage {
  readonly frame: Frame
  /** those that this device is signed in to */
  readonly shops: readonly { readonly id: string; readonly words: string }[]
  /** as it was typed */
  readonly name: string
  readonly problems: readonly Problem[]
}

/** @param wrong the name that was typed, and what was wrong with it; empty for nothing */
export const otherShopPage = (
  shops: readonly { readonly id: string; readonly name: string }[],
  { name = '', message = '' }: { readonly name?: string; readonly message?: string } = {},
): OtherShopPage => ({
  frame: { ...plainFrame('Which shop?'), place: null },
  shops: shops.map((shop) => ({ id: shop.id, words: shop.name === '' ? 'The first shop' : shop.name })),
  name,
  problems: message === '' ? [] : [{ field: 'name', message }],
})
