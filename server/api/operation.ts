/** One operation of the API: the router and the OpenAPI document are both made from a list of these. */
import type { Request, RequestHandler, Router } from 'express'
import type { z } from 'zod'
import type { ValueProblem } from '../errors.js'
import type { AtHand, Deps } from '../wiring/deps.js'
import { atHand } from '../wiring/deps.js'
import type { ProblemSlug } from './problems.js'
import { ApiProblem, notAcceptable, problemsFrom } from './problems.js'
import { valueWords } from './value-words.js'

export interface Reply<Body> {
  readonly body: Body
  readonly location?: string
}

interface Described<Input extends z.ZodType, Output extends z.ZodType> {
  readonly name: string
  readonly method: 'get' | 'post'
  /** below /api, with parameters in braces as OpenAPI writes them */
  readonly path: string
  readonly summary: string
  /** the query of a GET, the JSON body of a POST */
  readonly input?: Input
  readonly output: Output
  readonly status: 200 | 201
  readonly problems: readonly ProblemSlug[]
  readonly run: (
    hand: AtHand,
    input: z.output<Input>,
    parameters: Readonly<Record<string, string>>,
  ) => Promise<Reply<z.input<Output>>> | Reply<z.input<Output>>
}

export type Operation = Omit<Described<z.ZodType, z.ZodType>, 'run'> & {
  readonly handle: (deps: Deps) => RequestHandler
}

/** Ties the types of input and output to what `run` takes and gives, then forgets them. */
export function operation<Input extends z.ZodType, Output extends z.ZodType>(
  described: Described<Input, Output>,
): Operation {
  const { run, ...rest } = described
  return {
    ...rest,
    handle: (deps) => async (req, res) => {
      const hand = atHand(deps, req)
      const input = described.input && inputFrom(described.input, req)
      const { body, location } = await run(
        hand,
        input as z.output<Input>,
        req.params as Record<string, string>,
      )
      if (location !== undefined) res.location(location)
      res.status(described.status).json(body)
    },
  }
}

function inputFrom<Input extends z.ZodType>(schema: Input, req: Request): z.output<Input> {
  const inQuery = req.method === 'GET' || req.method === 'HEAD'
  const given: unknown = inQuery ? req.query : (req.body ?? {})
  const parsed = schema.safeParse(given, { error: valueWords })
  const unseen = unseenKeys(given)
  if (parsed.success && unseen.length === 0) return parsed.data
  const found = parsed.success ? [] : problemsFrom(parsed.error)
  const isKnown = ({ path }: ValueProblem) => found.some((it) => it.path.join() === path.join())
  throw notAcceptable([...found, ...unseen.filter((it) => !isKnown(it))], inQuery)
}

/** zod passes over the name `__proto__` in a map from ids to values; nothing that was sent goes unsaid. */
function unseenKeys(given: unknown): ValueProblem[] {
  if (typeof given !== 'object' || given === null) return []
  return Object.entries(given).flatMap(([field, value]: [string, unknown]) =>
    typeof value === 'object' && value !== null && Object.hasOwn(value, '__proto__')
      ? [{ path: [field, '__proto__'], message: 'is not known here; leave it out' }]
      : [],
  )
}

/** @throws ApiProblem 422 when there is any */
export function refuse(problems: readonly ValueProblem[], inQuery = false): void {
  if (problems.length > 0) throw notAcceptable(problems, inQuery)
}

/** Puts the operations into a router; any other method on their addresses is a 405 that says which are right. */
export function addOperations(router: Router, operations: readonly Operation[], deps: Deps): void {
  const byPath = new Map<string, Operation[]>()
  for (const it of operations) byPath.set(it.path, [...(byPath.get(it.path) ?? []), it])
  for (const [path, those] of byPath) {
    const address = path.replaceAll(/\{(\w+)\}/g, ':$1')
    for (const it of those) router[it.method](address, it.handle(deps))
    const allowed = those.flatMap(({ method }) => (method === 'get' ? ['GET', 'HEAD'] : ['POST'])).join(', ')
    router.all(address, (req, res) => {
      res.set('Allow', allowed)
      throw new ApiProblem('wrong-method', `${req.method} does nothing here; use ${allowed}.`)
    })
  }
}
