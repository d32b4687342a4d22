/** Reads every file under `rules/` against its schema. What cannot be read is a problem, never a throw. */
import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import type { z } from 'zod'
import type { RulebookProblem } from '../errors.js'
import { Id } from '../../shared/ids.js'
import { folders, Moved, Sources, type Folder, type Knowledge } from '../../shared/knowledge.js'
import { jsonProblem, schemaProblems } from './file-problems.js'

/** The rulebook as far as it can be read. */
export interface Reading {
  readonly knowledge: Knowledge
  readonly problems: RulebookProblem[]
  /** `causes/worn-brushes`, `sources`, `moved`: what is there and could not be read */
  readonly unreadable: Set<string>
}

/** @param dir the folder that holds `kinds/`, `causes/`, `sources.json` and the rest */
export function readFiles(dir: string): Reading {
  const problems: RulebookProblem[] = []
  const unreadable = new Set<string>()

  function read<S extends z.ZodType>(schema: S, name: string): z.output<S> | undefined {
    const file = `rules/${name}.json`
    const found = parseFile(schema, file, readFileSync(join(dir, `${name}.json`), 'utf8'))
    if (found.ok) return found.value
    problems.push(...found.problems)
    unreadable.add(name)
    return undefined
  }

  function readFolder<F extends Folder>(folder: F): Knowledge[F] {
    if (!existsSync(join(dir, folder))) return []
    const entries: object[] = []
    const names = readdirSync(join(dir, folder)).filter((name) => !name.startsWith('.'))
    for (const name of names.sort()) {
      const stray = strayProblem(folder, name)
      if (stray !== undefined) problems.push(stray)
      if (!name.endsWith('.json')) continue
      const id = name.slice(0, -'.json'.length)
      const entry = read(folders[folder] as z.ZodType<{ $schema?: string }>, `${folder}/${id}`)
      if (entry === undefined) continue
      delete entry.$schema // for editors only
      entries.push({ id, ...entry })
    }
    return entries.sort(byOrderThenId) as unknown as Knowledge[F]
  }

  function readSingle<S extends z.ZodType>(schema: S, name: string): z.output<S> {
    if (existsSync(join(dir, `${name}.json`))) return read(schema, name) ?? schema.parse({})
    problems.push({
      file: `rules/${name}.json`,
      field: '',
      message: 'there is no such file',
      remedy: 'add it; {} will do',
    })
    return schema.parse({})
  }

  problems.push(...strayFolders(dir))
  const knowledge: Knowledge = {
    kinds: readFolder('kinds'),
    setups: readFolder('setups'),
    causes: readFolder('causes'),
    findings: readFolder('findings'),
    steps: readFolder('steps'),
    fixes: readFolder('fixes'),
    stops: readFolder('stops'),
    relevance: readFolder('relevance'),
    policy: readFolder('policy'),
    care: readFolder('care'),
    sources: readSingle(Sources, 'sources'),
    moved: readSingle(Moved, 'moved'),
  }
  return { knowledge, problems, unreadable }
}

type Parsed<T> = { ok: true; value: T } | { ok: false; problems: RulebookProblem[] }

/** One file's text against its schema: every problem at once. */
function parseFile<S extends z.ZodType>(schema: S, file: string, text: string): Parsed<z.output<S>> {
  let data: unknown
  try {
    data = JSON.parse(text)
  } catch {
    return { ok: false, problems: [jsonProblem(file, text)] }
  }
  const parsed = schema.safeParse(data)
  if (parsed.success) return { ok: true, value: parsed.data }
  return { ok: false, problems: schemaProblems(file, parsed.error.issues, data) }
}

/** A file's name is its thing's id, and nothing else belongs in a folder. */
function strayProblem(folder: Folder, name: string): RulebookProblem | undefined {
  const file = `rules/${folder}/${name}`
  if (!name.endsWith('.json')) {
    return { file, field: '', message: 'only .json files belong here', remedy: 'rename or move it' }
  }
  const id = Id.safeParse(name.slice(0, -'.json'.length))
  if (id.success) return undefined
  return { file, field: '', message: `its name ${id.error.issues[0]!.message}`, remedy: 'rename the file' }
}

function strayFolders(dir: string): RulebookProblem[] {
  const known = new Set([...Object.keys(folders), 'schema', 'sources.json', 'moved.json'])
  return readdirSync(dir)
    .filter((name) => !known.has(name) && !name.startsWith('.'))
    .map((name) => ({
      file: `rules/${name}`,
      field: '',
      message: 'nothing reads this',
      remedy: `move it to one of ${Object.keys(folders).join(', ')}`,
    }))
}

function byOrderThenId(a: object, b: object): number {
  const [one, two] = [a as { id: string; order?: number }, b as { id: string; order?: number }]
  return (one.order ?? 0) - (two.order ?? 0) || (one.id < two.id ? -1 : 1)
}
