/** Reads source text for what a file must not name. */
import { readdirSync, readFileSync } from 'node:fs'
import { fileURLToPath } from 'node:url'
import { parseSync, Visitor } from 'oxc-parser'

const root = fileURLToPath(new URL('../../', import.meta.url))

/** Clock, chance and the world outside: the core gives the same answer to the same input, anywhere, ever. */
const worldly = new Set(
  'Date performance process console crypto fetch globalThis setTimeout setInterval setImmediate require'.split(
    ' ',
  ),
)

/** Names of the world outside that a file of the core uses. Comments and strings do not count. */
export function worldlyProblems(file: string, text: string): string[] {
  const named: { readonly name: string; readonly start: number }[] = []
  const members = new Set<number>()
  const problems: string[] = []
  new Visitor({
    Identifier: ({ name, start }) => void (worldly.has(name) && named.push({ name, start })),
    MemberExpression({ computed, object, property }) {
      if (computed) return
      members.add(property.start)
      if (object.type === 'Identifier' && property.type === 'Identifier')
        if (`${object.name}.${property.name}` === 'Math.random') problems.push(`${file} uses Math.random`)
    },
  }).visit(parseSync(file, text).program)
  return [
    ...problems,
    ...named.filter(({ start }) => !members.has(start)).map(({ name }) => `${file} uses ${name}`),
  ]
}

/** Strings that name a template: `pages/x`, `views/pages`, `*.ejs`. Pictures and styles under views/assets are no templates. */
export function viewNames(text: string): string[] {
  if (!/['"`]pages\/|views|\.ejs/.test(text)) return [] // no need to read it for its meaning
  const texts: string[] = []
  const sources = new Set<number>()
  const source = (it: { readonly source: { readonly start: number } | null }) =>
    void sources.add(it.source?.start ?? -1)
  new Visitor({
    ImportDeclaration: source,
    ExportNamedDeclaration: source,
    ExportAllDeclaration: source,
    Literal: ({ value, start }) =>
      void (typeof value === 'string' && !sources.has(start) && texts.push(value)),
    TemplateLiteral: ({ quasis }) => void texts.push(quasis[0]!.value.cooked ?? ''),
  }).visit(parseSync('any.ts', text).program)
  return texts.filter((it) => /^pages\/|views(\/pages|\/?$)|\.ejs$/.test(it))
}

/** Every TypeScript file below a folder of the project, with its text. */
export function sources(folder: string): { file: string; text: string }[] {
  return readdirSync(`${root}${folder}`, { recursive: true, encoding: 'utf8' })
    .map((name) => `${folder}/${name.replaceAll('\\', '/')}`)
    .filter((file) => file.endsWith('.ts'))
    .sort()
    .map((file) => ({ file, text: readFileSync(`${root}${file}`, 'utf8') }))
}
