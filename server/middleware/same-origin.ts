import type { Request, RequestHandler } from 'express'
import { Refused } from '../errors.js'

/** A page of another site wanted to change something. Answered with 403. */
export class OtherSite extends Refused {
  readonly status = 403

  constructor() {
    super('This was sent from a page of another site, so nothing was done. Open the page here and try again.')
  }
}

const SAFE = new Set(['GET', 'HEAD', 'OPTIONS'])

/**
 * Lets nothing but our own pages change anything. Browsers tell where a post comes from: `Origin` always,
 * `Sec-Fetch-Site` on https and loopback only (Fetch Metadata), so a phone in the shop sends the first
 * alone. Programs outside a browser send neither, and cannot be made to by a hostile page.
 */
export function sameOrigin(): RequestHandler {
  return (req, _res, next) => {
    if (!SAFE.has(req.method) && !isOurs(req)) throw new OtherSite()
    next()
  }
}

function isOurs(req: Request): boolean {
  const site = req.get('sec-fetch-site')
  if (site !== undefined && site !== 'same-origin' && site !== 'none') return false
  const origin = req.get('origin') ?? req.get('referer')
  return origin === undefined || hostOf(origin) === req.get('host')?.toLowerCase()
}

/** Host with port; null for `null` (a sandboxed page) and whatever else is no address. */
function hostOf(address: string): string | null {
  return URL.canParse(address) ? new URL(address).host : null
}
