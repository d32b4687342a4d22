/** Reads every file under `rules/` against its schema. What cannot be read is a problem, never a throw. */
import { existsSync, readdirSync, readFileSync } from 'node:fs'
import { join } from 'node:path'
import type { z } from 'zod'
import type { RulebookProblem } from '../errors.js'
import { ownYes } from '../../shared/finding-rule.js'
import { Id } from '../../shared/ids.js'
import { folderNames, folders, Moved, Sources, type Folder, type Knowledge } from '../../shared/knowledge.js'
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
    const found = parseFile(schema, file, join(dir, `${name}.json`))
    if (found.ok) return found.value
    problems.push(...found.problems)
    unreadable.add(name)
    return undefined
  }

  function readFolder<F extends Folder>(folder: F): Knowledge[F] {
    if (!existsSync(join(dir, folder))) return []
    const entries: object[] = []
    const names = readdirSync(join(dir, folder)).filter((name) => !isEditorsOwn(name))
    for (const name of names.sort()) {
      const stray = strayProblem(folder, name)
      if (stray !== undefined) problems.push(stray)
      if (!name.endsWith('.json')) continue
      const id = name.slice(0, -'.json'.length)
      const entry = read(folders[folder] as z.ZodType<{ $schema?: string }>, `${folder}/${id}`)
      if (entry === undefined) continue
      delete entry.$schema // for editors only
      // a rule says when only where that is not a yes to its own question
      entries.push({ id, ...(folder === 'findings' && { when: ownYes(id) }), ...entry })
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

  if (!existsSync(dir)) {
    problems.push({
      file: 'rules/',
      field: '',
      message: `there is no folder ${dir}`,
      remedy: 'put the rulebook there, or leave RULES_DIR out for the one that comes with the program',
    })
    return { knowledge: nothing, problems, unreadable: new Set(folderNames) }
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
    signs: readFolder('signs'),
    verdicts: readFolder('verdicts'),
    papers: readFolder('papers'),
    limits: readFolder('limits'),
    levels: readFolder('levels'),
    slips: readFolder('slips'),
    chains: readFolder('chains'),
    confusions: readFolder('confusions'),
    hearsay: readFolder('hearsay'),
    speech: readFolder('speech'),
    telling: readFolder('telling'),
    sources: readSingle(Sources, 'sources'),
    moved: readSingle(Moved, 'moved'),
  }
  return { knowledge, problems, unreadable }
}

const nothing = {
  ...Object.fromEntries(folderNames.map((folder) => [folder, []])),
  sources: {},
  moved: {},
} as unknown as Knowledge

type Parsed<T> = { ok: true; value: T } | { ok: false; problems: RulebookProblem[] }

/** One file against its schema: every problem at once. */
function parseFile<S extends z.ZodType>(schema: S, file: string, path: string): Parsed<z.output<S>> {
  let text: string
  try {
    text = readFileSync(path, 'utf8')
  } catch (error) {
    return { ok: false, problems: [unreadableProblem(file, error)] }
  }
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

function unreadableProblem(file: string, error: unknown): RulebookProblem {
  const why = error instanceof Error && 'code' in error ? ` (${String(error.code)})` : ''
  return {
    file,
    field: '',
    message: `it cannot be read${why}`,
    remedy: 'see that it is a file and that this program may read it',
  }
}

/** `.brush.json.swp`, `brush.json~`, `#brush.json#`, `4913`: what an editor puts beside a file while it is being changed. */
export function isEditorsOwn(name: string): boolean {
  return /^\.|~$|^#.*#$|^4913$|\.(swp|swo|tmp|temp|bak|orig)$/i.test(name)
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
    .filter((name) => !known.has(name) && !isEditorsOwn(name))
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
