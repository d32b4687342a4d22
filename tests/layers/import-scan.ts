/** Reads source text for imports, and tells those that the map of the house forbids. */
import { isBuiltin } from 'node:module'
import { posix } from 'node:path'
import ts from 'typescript'
import { coreStages, mayImport, mayUse } from './tables.js'

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
  return ts
    .preProcessFile(text)
    .importedFiles.flatMap(({ fileName: name }) =>
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
function imported(file: string, text: string): string[] {
  return ts
    .preProcessFile(text)
    .importedFiles.filter(({ fileName }) => fileName.startsWith('.'))
    .map(({ fileName }) => targetOf(file, fileName))
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

/** Files that import themselves, by whatever detour. */
export function inCircles(files: readonly { readonly file: string; readonly text: string }[]): string[] {
  const graph = new Map(files.map(({ file, text }) => [file, imported(file, text)]))
  const reaches = (from: string) => {
    const seen = new Set<string>()
    const visit = (file: string): void => {
      for (const next of graph.get(file) ?? []) {
        if (seen.has(next)) continue
        seen.add(next)
        visit(next)
      }
    }
    visit(from)
    return seen
  }
  return [...graph.keys()].filter((file) => reaches(file).has(file))
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
