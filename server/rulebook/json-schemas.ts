/** JSON Schemas for editors, generated from the schemas in `shared/` into `rules/schema/`. */
import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import { z } from 'zod'
import { Conditions } from '../../shared/conditions.js'
import { Id } from '../../shared/ids.js'
import { folderNames, folders, Moved, Sources, type Folder } from '../../shared/knowledge.js'
import { knownIds, type IdList, type KnownIds } from './known-ids.js'

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
    const schema = jsonSchemaOf(folders[folder], `One file of rules/${folder}/`)
    schemas.set(schemaFiles[folder], withIdLists(schema, factLists[folder]))
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

/** Which ids stand under which key. What is named elsewhere (a topic, an own id) may be any. */
const listsByKey: Readonly<Record<string, IdList>> = {
  kinds: 'kinds',
  shares: 'kinds',
  forKind: 'kinds',
  part: 'parts',
  strengths: 'causes',
  'strengths of a kind': 'kinds',
  cures: 'causes',
  prevents: 'causes',
  setups: 'setups',
  needs: 'setups',
  questions: 'questions',
  fixes: 'fixes',
  afterwards: 'care',
  source: 'sources',
  drawing: 'drawings',
  shownBy: 'findings',
  onlyWith: 'causes',
  rivals: 'causes',
  first: 'causes',
  then: 'causes',
  finding: 'findings',
  pointsTo: 'causes',
  checks: 'findings',
  causes: 'causes',
  confusion: 'confusions',
  slip: 'slips',
  opposite: 'speech',
}
/** What the facts of a condition are, where they are ids. */
const factLists: Partial<Record<Folder, IdList>> = {
  findings: 'questions',
  stops: 'findings',
  relevance: 'findings',
  papers: 'findings',
}

const anyId = '#/$defs/id'

/** The schema with every "any id" that has a list replaced by a pointer to that list. */
function withIdLists(schema: object, facts: IdList | undefined): object {
  const lists: Readonly<Record<string, IdList | undefined>> = { ...listsByKey, fact: facts }
  const walked = (value: unknown, key: string): unknown => {
    if (Array.isArray(value)) return value.map((it) => walked(it, key))
    if (typeof value !== 'object' || value === null) return value
    return Object.fromEntries(
      Object.entries(value).map(([name, inner]) => {
        const list = lists[key]
        if (name === '$ref' && inner === anyId && list) return [name, `${idFile}#/$defs/${list}`]
        if (name === 'properties' || name === '$defs') return [name, byName(inner as object)]
        const below = name === 'additionalProperties' && key === 'strengths' ? 'strengths of a kind' : key
        return [name, walked(inner, below)]
      }),
    )
  }
  const byName = (properties: object): object =>
    Object.fromEntries(Object.entries(properties).map(([name, inner]) => [name, walked(inner, name)]))
  return walked(schema, '') as object
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
