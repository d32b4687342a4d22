/** The OpenAPI 3.1 document, made from the list of operations and the zod schemas that check what comes in. */
import { z } from 'zod'
import * as api from '../../shared/api.js'
import { Conditions } from '../../shared/conditions.js'
import { Currency, Figures, SomeFigures } from '../../shared/figures.js'
import { Situation } from '../../shared/situation.js'
import * as practice from '../../shared/practice-api.js'
import type { Operation } from './operation.js'
import { problemKinds } from './problems.js'
import type { ProblemSlug } from './problems.js'

/** Schemas that have a name in the document; all others stand where they are used. */
const named = z.registry<{ id: string }>()
for (const [id, schema] of [...Object.entries(api), ...Object.entries(practice)]) named.add(schema, { id })
named.add(Situation, { id: 'Situation' })
named.add(Conditions, { id: 'Conditions' })
named.add(Currency, { id: 'Currency' })
named.add(Figures, { id: 'Figures' })
named.add(SomeFigures, { id: 'SomeFigures' })

const refTo = (id: string) => ({ $ref: `#/components/schemas/${id}` })

/** @param operations everything below /api, in the order to list it */
export function openApiDocument(operations: readonly Operation[]): Record<string, unknown> {
  const paths: Record<string, Record<string, unknown>> = {}
  for (const it of operations)
    paths[`/api${it.path}`] = { ...paths[`/api${it.path}`], [it.method]: operationObject(it) }
  return {
    openapi: '3.1.0',
    info: {
      title: 'clipperwright',
      version: '1',
      description:
        'Finds out what is wrong with a hair clipper. Money of the plan is in major units, figures of shop and case ' +
        'are integers in minor units; minutes are a trained hand’s. ' +
        'Errors are problem details (RFC 9457).',
    },
    servers: [{ url: '/' }],
    paths,
    components: { schemas: componentSchemas() },
  }
}

function operationObject(it: Operation): Record<string, unknown> {
  const names = [...it.path.matchAll(/\{(\w+)\}/g)].map(([, name]) => name)
  const problems: ProblemSlug[] = [
    ...it.problems,
    ...(it.method === 'post' ? (['not-readable', 'other-site', 'too-large', 'wrong-type'] as const) : []),
    'failed',
  ]
  return {
    operationId: it.name,
    summary: it.summary,
    parameters: [
      ...names.map((name) => ({ name, in: 'path', required: true, schema: { type: 'string' } })),
      ...(it.method === 'get' && it.input ? queryParameters(it.input) : []),
    ],
    ...(it.method === 'post' && {
      requestBody: {
        required: !it.input!.safeParse({}).success,
        content: { 'application/json': { schema: schemaOf(it.input!) } },
      },
    }),
    responses: {
      [it.status]: {
        description: it.summary,
        content: { 'application/json': { schema: schemaOf(it.output) } },
      },
      ...Object.fromEntries(
        problems.map((slug) => [
          problemKinds[slug].status,
          {
            description: problemKinds[slug].meaning,
            content: { 'application/problem+json': { schema: refTo('ProblemDetails') } },
          },
        ]),
      ),
    },
  }
}

function queryParameters(input: z.ZodType): unknown[] {
  const { properties = {}, required = [] } = z.toJSONSchema(input, { io: 'input' })
  return Object.entries(properties).map(([name, schema]) => ({
    name,
    in: 'query',
    required: required.includes(name),
    schema,
  }))
}

function schemaOf(schema: z.ZodType): unknown {
  const id = named.get(schema)?.id
  if (id === undefined)
    throw new Error('Every body of the API has its schema in shared/api.ts or practice-api.ts')
  return refTo(id)
}

/** As sent, so that a field with a default may be left out; what we answer satisfies the same schemas. */
function componentSchemas(): Record<string, unknown> {
  const { schemas } = z.toJSONSchema(named, { io: 'input', uri: (id) => `#/components/schemas/${id}` })
  const { __shared, ...own } = schemas
  const all = { ...own, ...__shared?.$defs }
  const bare = Object.fromEntries(
    Object.entries(all).map(([id, { $schema: _dialect, $id: _address, ...schema }]) => [id, schema]),
  )
  // zod keeps what several schemas use in a place of its own, whose address is none inside one document.
  const text = JSON.stringify(bare).replaceAll('/__shared#/$defs/', '/')
  return JSON.parse(text) as Record<string, unknown>
}
