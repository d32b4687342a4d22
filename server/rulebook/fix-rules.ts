/** `npm run fix:rules`: rewrites the generated schemas and mends order and form of every file, never a meaning. */
import { existsSync, mkdirSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs'
import { join } from 'node:path'
import { fileURLToPath } from 'node:url'
import { isDeepStrictEqual } from 'node:util'
import { format, type FormatConfig } from 'oxfmt'
import type { z } from 'zod'
import { ownYes } from '../../shared/finding-rule.js'
import { folders, Moved, Sources, type Folder } from '../../shared/knowledge.js'
import { isForeign, jsonSchemas, schemaFiles } from './json-schemas.js'
import { knownIds } from './known-ids.js'
import { strongestFirst } from './usual-order.js'

const style = JSON.parse(
  readFileSync(new URL('../../.prettierrc.json', import.meta.url), 'utf8'),
) as FormatConfig

/**
 * Writes `schema/`, and every file of the rulebook with its keys in the order of its schema, what it points to or
 * cures strongest first, and the name of its schema where that is missing, formatted.
 * A file that is no JSON is left alone; one with a wrong field is only formatted.
 *
 * @param dir the rulebook's folder
 * @returns the paths that changed, from the rulebook's folder
 */
export async function fixRules(dir: string): Promise<string[]> {
  const changed: string[] = []

  async function write(name: string, text: string): Promise<void> {
    const path = join(dir, name)
    const wanted = (await format(name, text, style)).code
    if (existsSync(path) && readFileSync(path, 'utf8') === wanted) return
    writeFileSync(path, wanted)
    changed.push(name)
  }

  async function mend(name: string, schema: z.ZodType, named: object = {}): Promise<void> {
    const text = readFileSync(join(dir, name), 'utf8')
    const data = parsed(text)
    if (data !== undefined) await write(name, inSchemaOrder(text, withoutOwnYes(name, data), schema, named))
  }

  mkdirSync(join(dir, 'schema'), { recursive: true })
  const schemas = jsonSchemas(knownIds(dir))
  for (const [name, schema] of schemas) await write(`schema/${name}`, JSON.stringify(schema))
  for (const name of readdirSync(join(dir, 'schema')).filter((it) => isForeign(it, schemas))) {
    rmSync(join(dir, 'schema', name))
    changed.push(`schema/${name}`)
  }
  for (const [folder, schema] of Object.entries(folders)) {
    if (!existsSync(join(dir, folder))) continue
    const names = readdirSync(join(dir, folder)).filter((it) => it.endsWith('.json'))
    const named = { $schema: `../schema/${schemaFiles[folder as Folder]}` }
    for (const name of names.sort()) await mend(`${folder}/${name}`, schema, named)
  }
  await mend('sources.json', Sources)
  await mend('moved.json', Moved)
  return changed
}

function parsed(text: string): unknown {
  try {
    return JSON.parse(text)
  } catch {
    return undefined
  }
}

/** A finding's `when` that says what would hold without it is left out. */
function withoutOwnYes(name: string, data: unknown): unknown {
  const id = /^findings\/(.+)\.json$/.exec(name)?.[1]
  if (id === undefined || typeof data !== 'object' || data === null || !('when' in data)) return data
  const { when, ...rest } = data
  return isDeepStrictEqual(when, ownYes(id)) ? rest : data
}

/**
 * The text itself where the order is right already, so that an editor's own line breaks stay.
 *
 * @param named what the file must have to be known by its editor, put in where it is missing
 */
function inSchemaOrder(text: string, data: unknown, schema: z.ZodType, named: object): string {
  const whole = { ...named, ...(data as object) }
  const read = schema.safeParse(whole)
  if (!read.success) return text
  const sorted = JSON.stringify(ordered(whole, read.data), null, 2)
  return sorted === JSON.stringify(parsed(text), null, 2) ? text : sorted
}

/** `data` with its keys in the order of `model`, which a schema gives out in its own order. */
function ordered(data: unknown, model: unknown): unknown {
  if (Array.isArray(data)) return data.map((it, i) => ordered(it, (model as unknown[])[i]))
  if (typeof data !== 'object' || data === null) return data
  const [from, like] = [data as Record<string, unknown>, model as Record<string, unknown>]
  const keys = Object.keys(like).filter((key) => key in from)
  return Object.fromEntries(keys.map((key) => [key, inUsualOrder(key, ordered(from[key], like[key]))]))
}

function inUsualOrder(key: string, value: unknown): unknown {
  if (key !== 'strengths' && key !== 'cures') return value
  return strongestFirst(value as Parameters<typeof strongestFirst>[0])
}

if (process.argv[1] === fileURLToPath(import.meta.url)) {
  const changed = await fixRules(process.argv[2] ?? fileURLToPath(new URL('../../rules/', import.meta.url)))
  console.log(
    changed.length === 0 ? 'rules/ is in order already' : `mended in rules/:\n  ${changed.join('\n  ')}`,
  )
}
