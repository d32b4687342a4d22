import type { RequestHandler } from 'express'
import { hasBody } from '../middleware/body-type.js'
import { ApiProblem } from './problems.js'

/** A body that is there must be JSON; without this a form would be read as no body at all. */
export function jsonOnly(): RequestHandler {
  return (req, _res, next) => {
    if (hasBody(req) && !req.is('application/json')) {
      throw new ApiProblem('wrong-type', 'A body must be JSON: send it with Content-Type: application/json.')
    }
    next()
  }
}
