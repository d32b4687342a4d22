/** Who is at the phone: who signed in on it; where nobody does, told once and remembered by the browser. */
import type { Request, Response } from 'express'
import { whoAsks } from '../../middleware/door.js'

const name = 'who'
const aYear = 366 * 24 * 3600 * 1000

/** Empty where nobody said. */
export function whoIn(req: Request): string {
  const signedIn = whoAsks(req)
  if (signedIn) return signedIn.name
  const [, value = ''] = new RegExp(`(?:^|;\\s*)${name}=([^;]*)`).exec(req.headers.cookie ?? '') ?? []
  try {
    return decodeURIComponent(value).slice(0, 60)
  } catch {
    return ''
  }
}

/** What is written beside an entry: who signed in is known to the store, under whatever name they have later. */
export const whoSaid = (req: Request): string => (whoAsks(req) ? '' : whoIn(req))

export const keepWho = (res: Response, who: string): void =>
  void res.cookie(name, who.slice(0, 60), { maxAge: aYear, httpOnly: true, sameSite: 'lax' })
