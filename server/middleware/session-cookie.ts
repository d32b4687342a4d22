import type { Request } from 'express'

/** The cookie of a shop: a device may be signed in to several of one database. */
export const cookieName = (shopId?: string): string =>
  shopId === undefined ? 'clipperwright' : `clipperwright-${shopId}`

/** The cookie of a phone that joined a class. */
export const passName = 'clipperwright-class'

/** What a device shows that is signed in, or joined a class. */
export function keyIn(req: Request, name: string): string | null {
  return new RegExp(`(?:^|;\\s*)${name}=([\\w-]{20,100})(?:;|$)`).exec(req.get('cookie') ?? '')?.[1] ?? null
}
