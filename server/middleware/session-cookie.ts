import type { Request, Response } from 'express'

/** The cookie of a shop: a device may be signed in to several of one database. */
export const cookieName = (shopId?: string): string =>
  shopId === undefined ? 'clipperwright' : `clipperwright-${shopId}`

/** The cookie of a phone that joined a class. */
export const passName = 'clipperwright-class'

/**
 * Where the way here is encrypted, the name says so (RFC 6265bis §4.1.3.2): no other host of the domain, and nobody on
 * plain http, can put a cookie there.
 */
const called = (req: Request, name: string): string => (req.secure ? `__Host-${name}` : name)

/** What a device shows that is signed in, or joined a class. */
export function keyIn(req: Request, name: string): string | null {
  const its = new RegExp(`(?:^|;\\s*)${called(req, name)}=([\\w-]{8,100})(?:;|$)`)
  return its.exec(req.get('cookie') ?? '')?.[1] ?? null
}

/** The shops of which a device has a key, whether it still works or not. */
export function shopsOn(req: Request): string[] {
  const its = new RegExp(`(?:^|;\\s*)${called(req, cookieName())}-([0-9a-z]{8})=`, 'g')
  return [...(req.get('cookie') ?? '').matchAll(its)].map(([, id]) => id!)
}

const ours = (req: Request) => ({ httpOnly: true, secure: req.secure, path: '/' })

/** @param stays milliseconds. @param from where a link elsewhere may lead to it: `lax`; else no other site's request carries it */
export function giveKey(
  req: Request,
  res: Response,
  name: string,
  key: string,
  { stays, sameSite = 'strict' }: { stays: number; sameSite?: 'strict' | 'lax' },
): void {
  res.cookie(called(req, name), key, { ...ours(req), sameSite, maxAge: stays })
}

export function takeKey(req: Request, res: Response, name: string): void {
  res.clearCookie(called(req, name), ours(req))
}
