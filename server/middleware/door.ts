import type { RequestHandler } from 'express'
import type { Person } from '../../shared/person.js'
import { Refused } from '../errors.js'
import type { PersonBook } from '../people/person-book.js'
import { mayAsk, mayAskInClass } from '../register/who-may.js'
import { cookieName, keyIn, passName } from './session-cookie.js'

/** Nobody is signed in on this device. Answered with 401. */
export class NotSignedIn extends Refused {
  readonly status = 401

  constructor() {
    super('Sign in first. Nothing was shown or changed.')
  }
}

/** What this person may not do. Answered with 403. */
export class NotAllowed extends Refused {
  readonly status = 403

  constructor(why = 'That is for a lead of the shop. Ask one of them; nothing was changed.') {
    super(why)
  }
}

/** Milliseconds that a device stays signed in without being used. */
export const staysFor = 30 * 24 * 3_600_000
/** Milliseconds that the pass of a phone is good for that joined a class. */
export const passStays = 12 * 3_600_000

const signedIn = new WeakMap<object, Person>()
/** Who asks; null where nobody signs in. */
export const whoAsks = (req: object): Person | null => signedIn.get(req) ?? null

/** The calendar has a key of its own in its address, because a calendar program cannot sign in. */
const open = /^\/(sign-in|join|welcome(\/[\w-]+)?|calendar\/[\w-]+\.ics)$/

/**
 * Lets in who is signed in, to what they may do; everybody else finds the door, and nothing behind it.
 *
 * @param as     runs what follows in the name of a person
 * @param shopId where one database has several shops
 */
export function door(
  people: PersonBook,
  now: () => Date,
  as: (person: string, work: () => void) => void,
  shopId?: string,
): RequestHandler {
  return async (req, res, next) => {
    const { path } = req
    const whole = req.baseUrl + path
    const key = keyIn(req, cookieName(shopId))
    const at = now()
    const after = new Date(at.getTime() - staysFor).toISOString()
    const person = key === null ? null : await people.signedIn(key, at.toISOString(), after)
    if (person === null) {
      if (open.test(whole)) return next()
      const pass = keyIn(req, passName)
      const learners = pass === null ? undefined : await people.passOf(pass, at.toISOString())
      if (learners && mayAskInClass(learners, req.method, whole)) {
        res.set('Cache-Control', 'no-store')
        return next()
      }
      if (req.method !== 'GET' || whole.startsWith('/api')) throw new NotSignedIn()
      return res.redirect(
        303,
        whole === '/' ? '/sign-in' : `/sign-in?to=${encodeURIComponent(req.originalUrl)}`,
      )
    }
    if (!mayAsk(person.role, req.method, whole)) throw new NotAllowed()
    signedIn.set(req, person)
    // what is kept on a shared phone is not for whoever has it next
    res.set('Cache-Control', 'no-store')
    as(person.id, next)
  }
}
