/** JSON Schemas for editors, generated from the schemas in `shared/` into `rules/schema/`. */
import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { z } from 'zod'
import { conditionParts } from '../../shared/conditions.js'
import { Id, idLists } from '../../shared/ids.js'
import { folderNames, folders, Moved, Sources, type Folder } from '../../shared/knowledge.js'
import { knownIds, type KnownIds } from './known-ids.js'

/** The file that `"$schema": "../schema/cause.schema.json"` in `rules/causes/` names. */
export const schemaFiles: Readonly<Record<Folder, string>> = {
  kinds: 'kind.schema.json',
  setups: 'setup.schema.json',
  causes: 'cause.schema.json',
  findings: 'finding.schema.json',
  steps: 'step.schema.json',
  fixes: 'fix.schema.json',
  stops: 'stop.schema.json',
  relevance: 'relevance.schema.json',
  policy: 'policy.schema.json',
  care: 'care.schema.json',
  signs: 'sign.schema.json',
  verdicts: 'verdict.schema.json',
  papers: 'paper.schema.json',
  limits: 'limit.schema.json',
  levels: 'level.schema.json',
  slips: 'slip.schema.json',
  chains: 'chain.schema.json',
  confusions: 'confusion.schema.json',
  hearsay: 'hearsay.schema.json',
  speech: 'speech.schema.json',
  telling: 'telling.schema.json',
}

/** The file that holds the ids that there are; the others point into it, so that a new id changes this one alone. */
const idFile = 'ids.schema.json'

/**
 * Every schema file's name with its JSON Schema (2020-12) of what may be written, defaults left out.
 *
 * @param ids what a file may name; null = not known now, and the file of ids is left out
 */
export function jsonSchemas(ids: KnownIds | null): Map<string, object> {
  const schemas = new Map<string, object>()
  for (const folder of folderNames) {
    schemas.set(schemaFiles[folder], jsonSchemaOf(folders[folder], `One file of rules/${folder}/`))
  }
  schemas.set('sources.schema.json', jsonSchemaOf(Sources, 'rules/sources.json'))
  schemas.set('moved.schema.json', jsonSchemaOf(Moved, 'rules/moved.json'))
  if (ids) schemas.set(idFile, idSchema(ids))
  return schemas
}

/**
 * Names of the schema files that are missing, out of date, or no longer generated.
 *
 * @param dir the rulebook's folder, which holds `schema/`
 */
export function staleSchemas(dir: string): string[] {
  const folder = join(dir, 'schema')
  const there = existsSync(folder) ? readdirSync(folder) : []
  const wanted = jsonSchemas(knownIds(dir))
  const stale = [...wanted].filter(
    ([name, schema]) => !there.includes(name) || !isSame(join(folder, name), schema),
  )
  return [...stale.map(([name]) => name), ...there.filter((name) => isForeign(name, wanted))].sort()
}

/** A file in `schema/` that nothing generates. The file of ids is one that is generated whenever it can be. */
export function isForeign(name: string, generated: ReadonlyMap<string, object>): boolean {
  return name !== idFile && !generated.has(name)
}

function isSame(path: string, schema: object): boolean {
  try {
    return JSON.stringify(JSON.parse(readFileSync(path, 'utf8'))) === JSON.stringify(schema)
  } catch {
    return false
  }
}

function idSchema(ids: KnownIds): object {
  const { $schema, $defs } = jsonSchemaOf(z.strictObject({ id: Id }), '') as {
    $schema: string
    $defs: { id: object }
  }
  return {
    $schema,
    title: 'The ids that there are, for the other schemas; npm run fix:rules adds new ones',
    $defs: Object.fromEntries(
      Object.entries(ids).map(([list, names]: [string, readonly string[]]) => [
        list,
        names.length > 0 ? { type: 'string', enum: names } : $defs.id,
      ]),
    ),
  }
}

/** Parts that get a name in `$defs` instead of being written out wherever they are used. */
const namedParts = new Map<z.core.$ZodType, string>([
  [Id, 'id'],
  ...conditionParts.flatMap(({ conditions, all, any, nested }): [z.core.$ZodType, string][] => [
    [conditions, 'conditions'],
    [all, 'all-of'],
    [any, 'any-of'],
    [nested, 'condition'],
  ]),
])

function jsonSchemaOf(schema: z.ZodType, title: string): object {
  // names go beside what `describe` put into zod's own registry, not into it: it is shared by the whole process
  const registry = z.registry<z.core.JSONSchemaMeta>()
  const own = registry.get.bind(registry)
  for (const [part, id] of namedParts) registry.add(part, { ...z.globalRegistry.get(part), id })
  registry.get = (part) => own(part) ?? z.globalRegistry.get(part)
  const { $schema, ...rest } = z.toJSONSchema(schema, {
    io: 'input',
    metadata: registry,
    override: pointToList,
  })
  return { $schema, title, ...rest }
}

/** Instead of the shape of an id, a pointer to the list of those that there are. */
function pointToList({
  zodSchema,
  jsonSchema,
}: {
  zodSchema: z.core.$ZodType
  jsonSchema: z.core.JSONSchema.BaseSchema
}) {
  const list = idLists.get(zodSchema)?.list
  if (list === undefined || jsonSchema.type !== 'string') return
  const { description } = jsonSchema
  for (const key of Object.keys(jsonSchema)) delete jsonSchema[key]
  Object.assign(jsonSchema, {
    ...(description !== undefined && { description }),
    $ref: `${idFile}#/$defs/${list}`,
  })
}
