import { isIP } from 'node:net'
import type { RequestHandler } from 'express'
import { Refused } from '../errors.js'

/** Asked for under a name that is not this server's. Answered with 421 (RFC 9110 §15.5.20). */
export class ForeignName extends Refused {
  readonly status = 421

  constructor() {
    super(
      'This name does not belong to this shop’s computer, so nothing was shown. Open the address that the ' +
        'program prints when it starts; or start it with this name in the setting NAMES.',
    )
  }
}

/**
 * Lets in only who asks for an address or for a name of this machine. A page of another site can point a name of its
 * own at this machine (DNS rebinding) and would then count as ours to the browser; an address it cannot make its own.
 *
 * @param names those of the machine and those that were configured, with or without capitals
 */
export function hostNames(names: readonly string[]): RequestHandler {
  const known = new Set(names.map((name) => name.toLowerCase()))
  return (req, _res, next) => {
    const name = nameIn(req.get('host') ?? '')
    if (isIP(name) === 0 && name !== 'localhost' && !name.endsWith('.localhost') && !known.has(name))
      throw new ForeignName()
    next()
  }
}

/** Without port, brackets and the dot at the end of a full name; empty where it is none. */
function nameIn(host: string): string {
  const found = /^(?:\[([^\]]+)\]|([^:]+))(?::\d*)?$/.exec(host.trim().toLowerCase())
  return (found?.[1] ?? found?.[2] ?? '').replace(/\.$/, '')
}
