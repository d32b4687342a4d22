/** Errors as RFC 9457 problem details: `application/problem+json`, with every mistake listed. */
import type { ZodError } from 'zod'
import type { ProblemDetails } from '../../shared/api.js'
import type { ValueProblem } from '../errors.js'
import { PlainError } from '../errors.js'

/** Every kind of problem that the API tells of. Its `type` is an address that answers with this text. */
export const problemKinds = {
  'not-readable': { status: 400, title: 'Not readable', meaning: 'The body is not well-formed JSON.' },
  'not-signed-in': {
    status: 401,
    title: 'Not signed in',
    meaning: 'Whoever opens this server to a network signs in first, on a page, and sends the cookie along.',
  },
  'not-allowed': {
    status: 403,
    title: 'Not allowed',
    meaning: 'Somebody of another role may do this; nothing was changed.',
  },
  'other-site': {
    status: 403,
    title: 'From another site',
    meaning: 'A page of another site tried to change something here; only pages of this server may.',
  },
  'not-found': { status: 404, title: 'Not found', meaning: 'Nothing has this address.' },
  'wrong-method': {
    status: 405,
    title: 'Wrong method',
    meaning: 'The address is right, the method is not; the header `Allow` names those that are.',
  },
  'moved-on': {
    status: 409,
    title: 'The case has moved on',
    meaning:
      'The stored case does not fit the request: fetch it again and decide again. Nothing was changed.',
  },
  'too-large': { status: 413, title: 'Too large', meaning: 'A body has at most 64 kB.' },
  'wrong-type': { status: 415, title: 'Wrong type', meaning: 'A body must be `application/json`.' },
  unreadable: {
    status: 409,
    title: 'Not to be read back',
    meaning: 'Something in the stored case is damaged. It was left as it is.',
  },
  'foreign-name': {
    status: 421,
    title: 'Not a name of this server',
    meaning: 'The header `Host` names another server; use an address or a name that belongs to this one.',
  },
  'not-acceptable': {
    status: 422,
    title: 'Values that cannot be used',
    meaning:
      'The body is JSON, but something in it is wrong; `errors` lists everything. Nothing was changed.',
  },
  'too-many': {
    status: 429,
    title: 'Too many at once',
    meaning: 'So much of this device waits already; nothing was changed. Ask for one thing after the other.',
  },
  busy: {
    status: 503,
    title: 'Busy',
    meaning: 'It cannot be done just now; nothing was changed. Try again in a moment.',
  },
  'no-room': { status: 507, title: 'No room', meaning: 'The disk is full; nothing was kept.' },
  failed: {
    status: 500,
    title: 'Something went wrong here',
    meaning: 'A mistake of the program; it is in the log. The request may be tried again.',
  },
} as const
export type ProblemSlug = keyof typeof problemKinds

type ErrorItem = NonNullable<ProblemDetails['errors']>[number]

/** A request that the API turns down. */
export class ApiProblem extends PlainError {
  constructor(
    readonly slug: ProblemSlug,
    readonly detail: string,
    readonly errors?: readonly ErrorItem[],
  ) {
    super(detail)
  }
}

/** Somebody's overlong id is not sent back in full; `errors` points to where it stood. */
const longest = 400

/** The document to send. `instance` is the address that was asked for. */
export function problemDetails({ slug, detail, errors }: ApiProblem, instance: string): ProblemDetails {
  const { status, title } = problemKinds[slug]
  return {
    type: `/api/problems/${slug}`,
    title,
    status,
    detail: detail.length > longest ? `${detail.slice(0, longest)}…` : detail,
    instance,
    ...(errors && errors.length > 0 && { errors: [...errors] }),
  }
}

/** 422 with one item for each mistake. `inQuery`: the values were query parameters, not a body. */
export function notAcceptable(problems: readonly ValueProblem[], inQuery = false): ApiProblem {
  const errors = problems.map(({ path, message }) =>
    inQuery ? { parameter: path.join('.'), detail: message } : { pointer: pointerOf(path), detail: message },
  )
  const [first] = problems
  const one = first ? `${[...path(first)].join('.')}: ${first.message}` : 'nothing in it can be used'
  const detail = problems.length === 1 ? one : `${problems.length} values cannot be used; see errors.`
  return new ApiProblem('not-acceptable', detail, errors)
}

const path = ({ path }: ValueProblem): readonly PropertyKey[] => (path.length > 0 ? path : ['body'])

/** What zod found, one item for each mistake, a key that is not known included. */
export function problemsFrom(error: ZodError): ValueProblem[] {
  return error.issues.flatMap((issue): ValueProblem[] => {
    const path = issue.path.map(String)
    if (issue.code === 'unrecognized_keys') {
      return issue.keys.map((key) => ({ path: [...path, key], message: 'is not known here; leave it out' }))
    }
    if (issue.code === 'invalid_key') {
      return issue.issues.map(({ message }) => ({ path, message: `this name ${message}` }))
    }
    return [{ path, message: issue.message }]
  })
}

/** JSON Pointer (RFC 6901) as a URI fragment. */
function pointerOf(path: readonly PropertyKey[]): string {
  return [
    '#',
    ...path.map((part) =>
      encodeURIComponent(String(part).toWellFormed().replaceAll('~', '~0').replaceAll('/', '~1')),
    ),
  ].join('/')
}
