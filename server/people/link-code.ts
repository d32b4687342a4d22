import { randomBytes } from 'node:crypto'

/** What nobody guesses: 192 bits of chance. */
export const newKey = (): string => randomBytes(24).toString('base64url')

/** A new code for a link that works once; where one database has several shops, it tells which one it leads into. */
export function linkCode(shopId?: string): string {
  return ofShop(newKey(), shopId)
}

/** A secret of an address, with the shop that it leads into. */
export const ofShop = (code: string, shopId?: string): string =>
  shopId === undefined ? code : `${shopId}-${code}`
