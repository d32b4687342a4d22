/** Reads source text for imports, and tells those that the map of the house forbids. */
import { isBuiltin } from 'node:module'
import { posix } from 'node:path'
import { parseSync } from 'oxc-parser'
import { coreStages, mayImport, mayUse } from './tables.js'

const parsed = new Map<string, readonly string[]>()

/** What a file imports, as its text names it. That types too are imported at the top is held by the linter. */
function importedNames(text: string): readonly string[] {
  const before = parsed.get(text)
  if (before !== undefined) return before
  const { staticImports, staticExports, dynamicImports } = parseSync('any.ts', text).module
  const names = [
    ...staticImports.map(({ moduleRequest }) => moduleRequest.value),
    ...new Set(
      staticExports.flatMap(({ entries }) => entries.flatMap((it) => it.moduleRequest?.value ?? [])),
    ),
    ...dynamicImports.map(({ moduleRequest: { start, end } }) => text.slice(start + 1, end - 1)),
  ]
  parsed.set(text, names)
  return names
}

/** The project's file that an import names. */
const targetOf = (file: string, name: string): string =>
  posix.join(posix.dirname(file), name).replace(/\.js$/, '.ts')

function layerOf(file: string): string | undefined {
  return Object.keys(mayImport)
    .filter((layer) => file.startsWith(layer))
    .sort((a, b) => b.length - a.length)[0]
}

/** What a file imports against the tables; empty when all is well. */
export function importProblems(file: string, text: string): string[] {
  const layer = layerOf(file)
  if (layer === undefined) return [`${file} belongs to no layer: add it to the table`]
  return importedNames(text).flatMap((name) =>
    name.startsWith('.') ? fileProblems(file, layer, name) : packageProblems(file, name),
  )
}

function fileProblems(file: string, layer: string, name: string): string[] {
  const target = targetOf(file, name)
  if (target.endsWith('.json')) return []
  if (target.startsWith(layer) || mayImport[layer]!.some((it) => target.startsWith(it))) return []
  return [`${file} imports ${target}, which is above it`]
}

/** Files of the project that a file imports, types included. */
function imported(file: string, text: string): readonly string[] {
  return importedNames(text)
    .filter((name) => name.startsWith('.'))
    .map((name) => targetOf(file, name))
}

/** Imports against the order of the core's stages, and files that are in none. */
export function stageProblems(file: string, text: string): string[] {
  const stageOf = (it: string) =>
    coreStages.findIndex((stage) => stage.some((name) => it === `server/diagnosis/${name}`))
  const own = stageOf(file)
  if (own < 0) return [`${file} is in no stage of the core: add it to the table`]
  return imported(file, text)
    .filter((target) => stageOf(target) > own)
    .map((target) => `${file} imports ${target}, which comes after it`)
}

/** What is left of the files when those are taken away, again and again, that import nothing left or are imported by none. */
export function inCircles(files: readonly { readonly file: string; readonly text: string }[]): string[] {
  const graph = new Map(files.map(({ file, text }) => [file, imported(file, text)]))
  for (let before = -1; before !== graph.size;) {
    before = graph.size
    const wanted = new Set([...graph.values()].flat())
    for (const [file, targets] of graph)
      if (!wanted.has(file) || !targets.some((it) => graph.has(it))) graph.delete(file)
  }
  return [...graph.keys()]
}

function packageProblems(file: string, name: string): string[] {
  if (file.startsWith('tests/')) return []
  const key = isBuiltin(name)
    ? 'node:'
    : name
        .split('/')
        .slice(0, name.startsWith('@') ? 2 : 1)
        .join('/')
  const users = mayUse[key]
  if (users === undefined) return [`${file} imports ${name}, which is in no table: say who may use it`]
  return users.some((it) => file.startsWith(it)) ? [] : [`${file} imports ${name}, which is not for it`]
}
