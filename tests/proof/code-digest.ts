/** The code that the figures rest on, as a digest: the core, the simulation, the proof, and all that they import. */
import { createHash } from 'node:crypto'
import { readFileSync, readdirSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import ts from 'typescript'

const root = new URL('../../', import.meta.url)
const layers = ['server/diagnosis/', 'server/simulation/', 'server/proof/'] as const

/** Paths from the project's root, in order. */
export function codeFiles(): string[] {
  const found = new Set<string>()
  const waiting = layers.flatMap(sourcesIn)
  for (let file = waiting.pop(); file !== undefined; file = waiting.pop()) {
    if (found.has(file)) continue
    found.add(file)
    for (const specifier of importsOf(readFileSync(new URL(file, root), 'utf8'))) {
      if (!specifier.startsWith('.')) continue
      const target = new URL(specifier.replace(/\.js$/, '.ts'), new URL(file, root))
      waiting.push(fileURLToPath(target).slice(fileURLToPath(root).length).replaceAll('\\', '/'))
    }
  }
  return [...found].sort()
}

/** @returns a SHA-256 in hexadecimal; comments, types and layout do not count */
export function codeDigest(files: readonly string[] = codeFiles()): string {
  const hash = createHash('sha256')
  for (const file of files) hash.update(`${file}\n${bareCode(readFileSync(new URL(file, root), 'utf8'))}\n`)
  return hash.digest('hex')
}

/** What a TypeScript text does, without what it says of it. */
export function bareCode(text: string): string {
  return ts.transpileModule(text, {
    compilerOptions: {
      removeComments: true,
      target: ts.ScriptTarget.ESNext,
      module: ts.ModuleKind.ESNext,
    },
  }).outputText
}

function importsOf(text: string): string[] {
  return ts.preProcessFile(text, true, true).importedFiles.map(({ fileName }) => fileName)
}

function sourcesIn(folder: string): string[] {
  return readdirSync(new URL(folder, root), { recursive: true, encoding: 'utf8' })
    .filter((name) => name.endsWith('.ts'))
    .map((name) => folder + name.replaceAll('\\', '/'))
}
