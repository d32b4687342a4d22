import type { ErrorRequestHandler, RequestHandler } from 'express'
import { NotFound, Refused } from '../errors.js'
import { problemPage } from '../pages/layout/problem-page.js'
import { renderPage } from '../pages/render.js'

/** Whatever no route took. */
export function notFound(): RequestHandler {
  return () => {
    throw new NotFound('a page at this address')
  }
}

/**
 * The last handler: plain words and the right status to the person, the whole thing to the log.
 *
 * @param log where a fault of our own is written; a person's slip is not one
 */
export function errorPage(
  log: (error: unknown) => void = (error) => console.error(error),
): ErrorRequestHandler {
  return (error: unknown, _req, res, next) => {
    if (res.headersSent) return next(error)
    const status = statusOf(error)
    if (status >= 500) log(error)
    renderPage(res.status(status), 'layout/problem', problemPage(status, textFor(error, status)))
  }
}

/** Our own errors and the parsers' carry a status; anything else is a fault of ours. */
function statusOf(error: unknown): number {
  const status = error instanceof Error && 'status' in error ? error.status : undefined
  return typeof status === 'number' && status >= 400 && status < 600 ? status : 500
}

/** Our own errors speak to the person; the words of a library speak to a programmer and stay in the log. */
function textFor(error: unknown, status: number): string {
  if (error instanceof Refused) return error.message
  if (status === 413) return 'The form was longer than this bench takes.'
  if (status >= 500) return 'The page could not be made.'
  return 'What was sent cannot be read.'
}
