import type { Request, RequestHandler } from 'express'
import { BadRequest } from '../errors.js'

/** A body that is there must be a form of ours. */
export function formOnly(): RequestHandler {
  return (req, _res, next) => {
    if (hasBody(req) && !req.is('application/x-www-form-urlencoded')) {
      throw new BadRequest(
        'That did not come from a form of this page. Open the page again and send it from there.',
        {
          status: 415,
        },
      )
    }
    next()
  }
}

/** Does a request bring a body along? */
export function hasBody({ headers }: Request): boolean {
  return headers['transfer-encoding'] !== undefined || Number(headers['content-length'] ?? 0) > 0
}
