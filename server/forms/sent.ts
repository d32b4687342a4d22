/** What came with a form, before anybody has looked at what it says. */
import { BadRequest } from '../errors.js'
import type { Sent } from './answer-form.js'
import { textOf } from './answer-form.js'

/** The fields of a form. @param body as Express has parsed it @throws BadRequest when it is no form of ours */
export function sentFrom(body: unknown): Sent {
  if (typeof body !== 'object' || body === null)
    throw new BadRequest('Send this with the form on the page.', { status: 415 })
  return body as Sent
}

/**
 * How much had happened when the form was made: events of a case, moves of an exercise.
 *
 * @throws BadRequest when the form does not say
 */
export function seenIn(sent: Sent, doWhat = 'load the page again'): number {
  const text = textOf(sent, 'seen')
  if (!/^\d{1,6}$/.test(text))
    throw new BadRequest(`This form does not say which page it comes from; ${doWhat}.`, { field: 'seen' })
  return Number(text)
}
