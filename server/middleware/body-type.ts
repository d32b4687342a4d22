import type { Request, RequestHandler } from 'express'
import { ApiProblem } from '../api/problems.js'
import { BadRequest } from '../errors.js'

/** A body that is there must be JSON; without this a form would be read as no body at all. */
export function jsonOnly(): RequestHandler {
  return (req, _res, next) => {
    if (hasBody(req) && !req.is('application/json')) {
      throw new ApiProblem('wrong-type', 'A body must be JSON: send it with Content-Type: application/json.')
    }
    next()
  }
}

/** The same for the pages: a body that is there must be a form. */
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

function hasBody({ headers }: Request): boolean {
  return headers['transfer-encoding'] !== undefined || Number(headers['content-length'] ?? 0) > 0
}
