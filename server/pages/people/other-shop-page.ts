/** Changing to another shop of the same database. */
import type { Problem } from '../../forms/answer-form.js'
import type { Frame } from '../layout/frame.js'
import { plainFrame } from '../layout/frame.js'

export interface OtherShopPage {
  readonly frame: Frame
  /** those that this device is signed in to */
  readonly shops: readonly { readonly id: string; readonly words: string }[]
  readonly problems: readonly Problem[]
}

/** @param message what was wrong with the name; empty for nothing */
export const otherShopPage = (
  shops: readonly { readonly id: string; readonly name: string }[],
  message: string,
): OtherShopPage => ({
  frame: { ...plainFrame('Which shop?'), place: null },
  shops: shops.map(({ id, name }) => ({ id, words: name === '' ? 'The first shop' : name })),
  problems: message === '' ? [] : [{ field: 'name', message }],
})
