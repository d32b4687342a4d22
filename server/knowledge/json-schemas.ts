/** JSON Schemas for editors, generated from the schemas in `shared/` into `rules/schema/`. */
import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { z } from 'zod'
import { Conditions } from '../../shared/conditions.js'
import { Id } from '../../shared/ids.js'
import { folderNames, folders, Moved, Sources, type Folder } from '../../shared/knowledge.js'

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
}

/** Every schema file's name with its JSON Schema (2020-12) of what may be written, defaults left out. */
export function jsonSchemas(): Map<string, object> {
  const schemas = new Map<string, object>()
  for (const folder of folderNames) {
    schemas.set(schemaFiles[folder], jsonSchemaOf(folders[folder], `One file of rules/${folder}/`))
  }
  schemas.set('sources.schema.json', jsonSchemaOf(Sources, 'rules/sources.json'))
  schemas.set('moved.schema.json', jsonSchemaOf(Moved, 'rules/moved.json'))
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
  const wanted = jsonSchemas()
  const stale = [...wanted].filter(
    ([name, schema]) => !there.includes(name) || !isSame(join(folder, name), schema),
  )
  return [...stale.map(([name]) => name), ...there.filter((name) => !wanted.has(name))].sort()
}

function isSame(path: string, schema: object): boolean {
  try {
    return JSON.stringify(JSON.parse(readFileSync(path, 'utf8'))) === JSON.stringify(schema)
  } catch {
    return false
  }
}

/** `{ "all": [...] }` and `{ "any": [...] }`, and what stands inside them: private to shared/, so reached from outside. */
const [allOf, anyOf] = (Conditions as z.ZodUnion<[z.ZodObject<{ all: z.ZodArray }>, z.ZodObject]>).options

/** Parts that get a name in `$defs` instead of being written out wherever they are used. */
const namedParts = new Map<z.core.$ZodType, string>([
  [Id, 'id'],
  [Conditions, 'conditions'],
  [allOf, 'all-of'],
  [anyOf, 'any-of'],
  [allOf.shape.all.element, 'condition'],
])

function jsonSchemaOf(schema: z.ZodType, title: string): object {
  // names go beside what `describe` put into zod's own registry, not into it: it is shared by the whole process
  const registry = z.registry<z.core.JSONSchemaMeta>()
  const own = registry.get.bind(registry)
  for (const [part, id] of namedParts) registry.add(part, { ...z.globalRegistry.get(part), id })
  registry.get = (part) => own(part) ?? z.globalRegistry.get(part)
  const { $schema, ...rest } = z.toJSONSchema(schema, { io: 'input', metadata: registry })
  return { $schema, title, ...rest }
}
