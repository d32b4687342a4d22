import { randomBytes } from 'node:crypto'

/** A new code for a link that works once; where one database has several shops, it tells which one it leads into. */
export function linkCode(shopId?: string): string {
  return ofShop(randomBytes(24).toString('base64url'), shopId)
}

/** A secret of an address, with the shop that it leads into. */
export const ofShop = (code: string, shopId?: string): string =>
  shopId === undefined ? code : `${shopId}-${code}`
