import type { ErrorRequestHandler, Response } from 'express'
import {
  BadRequest,
  CaseNotFound,
  NotAsItStands,
  NotFound,
  StaleForm,
  StaleShop,
  StoreTrouble,
  UnknownToRulebook,
  UnreadableCase,
} from '../errors.js'
import { NotAllowed, NotSignedIn } from '../middleware/door.js'
import { TooMany } from '../middleware/fair-turns.js'
import { ForeignName } from '../middleware/host-names.js'
import { OtherSite } from '../middleware/same-origin.js'
import { ApiProblem, notAcceptable, problemDetails } from './problems.js'
import type { ProblemSlug } from './problems.js'

/** Every error below /api as problem details. The stack goes to the log, never into an answer. */
export function problemHandler(log: (error: unknown) => void = console.error): ErrorRequestHandler {
  return (error: unknown, req, res, next) => {
    if (res.headersSent) {
      next(error)
      return
    }
    const problem = problemFrom(error)
    if (problem.slug === 'failed') log(error)
    sendProblem(res, problem, req.originalUrl)
  }
}

function sendProblem(res: Response, problem: ApiProblem, instance: string): void {
  const details = problemDetails(problem, instance.slice(0, 300))
  res.status(details.status).type('application/problem+json').send(JSON.stringify(details))
}

function problemFrom(error: unknown): ApiProblem {
  if (error instanceof ApiProblem) return error
  if (error instanceof CaseNotFound || error instanceof NotFound)
    return new ApiProblem('not-found', error.message)
  if (error instanceof StaleForm) {
    return new ApiProblem('moved-on', 'The case has other events than you had seen; fetch it again.')
  }
  if (error instanceof NotAsItStands) return new ApiProblem('moved-on', error.message)
  if (error instanceof UnknownToRulebook) return notAcceptable(error.problems)
  if (error instanceof StaleShop) return new ApiProblem('moved-on', error.message)
  if (error instanceof UnreadableCase) return new ApiProblem('unreadable', error.message)
  if (error instanceof StoreTrouble)
    return new ApiProblem(error.status === 507 ? 'no-room' : 'busy', error.message)
  if (error instanceof NotSignedIn) return new ApiProblem('not-signed-in', error.message)
  if (error instanceof NotAllowed) return new ApiProblem('not-allowed', error.message)
  if (error instanceof TooMany) return new ApiProblem('too-many', error.message)
  if (error instanceof ForeignName) return new ApiProblem('foreign-name', error.message)
  if (error instanceof OtherSite) return new ApiProblem('other-site', error.message)
  if (error instanceof BadRequest) return new ApiProblem(slugs[error.status] ?? 'not-readable', error.message)
  return (
    fromParser(error) ??
    new ApiProblem('failed', 'The program made a mistake. It is in the log of the server.')
  )
}

const slugs: Readonly<Record<number, ProblemSlug>> = {
  400: 'not-readable',
  413: 'too-large',
  415: 'wrong-type',
  422: 'not-acceptable',
}

/** Errors of Express's own parsers carry a 4xx status; their texts are for programmers, so we write ours. */
function fromParser(error: unknown): ApiProblem | null {
  if (!(error instanceof Error) || !('status' in error) || typeof error.status !== 'number') return null
  const slug = slugs[error.status] ?? (error.status >= 400 && error.status < 500 ? 'not-readable' : null)
  if (slug === null) return null
  return new ApiProblem(
    slug,
    notJson(error) ?? parserWords[slug] ?? 'The request cannot be read; check its address and its body.',
  )
}

/** The parser's text may quote the body; of it only the place is passed on. */
function notJson(error: Error): string | null {
  if (!('type' in error) || error.type !== 'entity.parse.failed') return null
  const at = / in JSON at position (\d+)(?: \(line \d+ column \d+\))?$/.exec(error.message)?.[1]
  const where = at === undefined ? '' : ` at character ${Number(at) + 1}`
  return `The body is not well-formed JSON${where}; send one object, such as {"kind": "…", "answers": {}}.`
}

const parserWords: Partial<Record<ProblemSlug, string>> = {
  'too-large': 'The body is larger than 64 kB; send less at a time.',
  'wrong-type': 'The body has a character set or an encoding that is not known here; send JSON in UTF-8.',
}
